# The course of extraction by R's own nls (the PORT library), for the tests. Reads lines
#   PLATEAU RATE START WANTED TIME COLOUR TIME COLOUR ...
# (where to begin the search, then the readings) and prints for each
#   plateau, rate, start; their standard errors; the time at which the colour is WANTED; its standard
#   uncertainty from the covariance matrix.
course <- deriv(~ P - (P - S) * exp(-k * t), c("P", "k", "S"), function(P, k, S, t) {})
hour <- deriv(~ log((P - S) / (P - C)) / k, c("P", "k", "S"))
for (line in readLines(commandArgs(trailingOnly = TRUE)[1])) {
  n <- as.numeric(strsplit(line, " ")[[1]])
  at <- matrix(n[-(1:4)], nrow = 2)
  readings <- data.frame(t = at[1, ], a = at[2, ])
  fit <- nls(a ~ course(P, k, S, t), readings, start = list(P = n[1], k = n[2], S = n[3]),
             algorithm = "port")
  covariance <- vcov(fit)
  p <- coef(fit)
  found <- eval(hour, c(as.list(p), C = n[4]))
  slopes <- attr(found, "gradient")[1, ]
  cat(sprintf("%.15g", c(p, sqrt(diag(covariance)), found, sqrt(slopes %*% covariance %*% slopes))), "\n")
}
