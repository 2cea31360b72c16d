# The course of extraction by R's own nls, for the tests. Reads lines
#   PLATEAU RATE START WANTED TIME COLOUR TIME COLOUR ...
# (where to begin the search, then the readings) and prints for each
#   plateau, rate, start; their standard errors; the time at which the colour is WANTED; its standard
#   uncertainty from the covariance matrix.
for (line in readLines(commandArgs(trailingOnly = TRUE)[1])) {
  n <- as.numeric(strsplit(line, " ")[[1]])
  at <- matrix(n[-(1:4)], nrow = 2)
  readings <- data.frame(t = at[1, ], a = at[2, ])
  fit <- nls(a ~ P - (P - S) * exp(-k * t), readings, start = list(P = n[1], k = n[2], S = n[3]),
             control = nls.control(tol = 1e-10))
  covariance <- vcov(fit)
  p <- coef(fit)
  hour <- deriv(~ log((P - S) / (P - C)) / k, c("P", "k", "S"))
  found <- eval(hour, c(as.list(p), C = n[4]))
  slopes <- attr(found, "gradient")[1, ]
  cat(sprintf("%.15g", c(p, sqrt(diag(covariance)), found, sqrt(slopes %*% covariance %*% slopes))), "\n")
}
