# The course of a fermentation by R's own nls (the PORT library), for the tests. Reads lines
#   START RATE MIDDLE END HELD ABOVE TIME DENSITY TIME DENSITY ...
# (where to begin the search; HELD is 1 when the end is known; then the readings) and prints for each
#   start, rate, middle, end; the day at which the density is ABOVE the end; half of its 95 % interval, by
#   the covariance matrix and Student's t.
free <- deriv(~ E + (S - E) / (1 + exp(k * (t - m))), c("S", "k", "m", "E"), function(S, k, m, E, t) {})
held <- deriv(~ E + (S - E) / (1 + exp(k * (t - m))), c("S", "k", "m"), function(S, k, m, E, t) {})
day <- deriv(~ m + log((S - E - A) / A) / k, c("S", "k", "m", "E"))
for (line in readLines(commandArgs(trailingOnly = TRUE)[1])) {
  n <- as.numeric(strsplit(line, " ")[[1]])
  at <- matrix(n[-(1:6)], nrow = 2)
  readings <- data.frame(t = at[1, ], d = at[2, ])
  begin <- list(S = n[1], k = n[2], m = n[3], E = n[4])
  if (n[5] == 1) {
    readings$E <- n[4]
    fit <- nls(d ~ held(S, k, m, E, t), readings, start = begin[1:3], algorithm = "port")
    p <- c(coef(fit), E = n[4])
  } else {
    fit <- nls(d ~ free(S, k, m, E, t), readings, start = begin, algorithm = "port")
    p <- coef(fit)
  }
  found <- eval(day, c(as.list(p), A = n[6]))
  slopes <- attr(found, "gradient")[1, names(coef(fit))]
  half <- sqrt(slopes %*% vcov(fit) %*% slopes) * qt(0.975, df.residual(fit))
  cat(sprintf("%.15g", c(p, found, half)), "\n")
}
