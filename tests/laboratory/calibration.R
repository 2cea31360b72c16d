# Calibration lines by R's own lm and predict, for the tests. Reads lines
#   NEW Y  X Y X Y ...
# (an x where the line is asked for, a reading of a sample, then the standards) and prints for each
#   intercept, slope, their standard errors, residual standard error, R squared; the line at NEW and its standard error;
#   half of the 95 % interval of one more reading there; the x of the sample; R's x of the sample turned round.
for (line in readLines(commandArgs(trailingOnly = TRUE)[1])) {
  n <- as.numeric(strsplit(line, " +")[[1]])
  at <- matrix(n[-(1:2)], nrow = 2)
  d <- data.frame(x = at[1, ], y = at[2, ])
  fit <- lm(y ~ x, d)
  s <- summary(fit)
  p <- predict(fit, data.frame(x = n[1]), se.fit = TRUE)
  i <- predict(fit, data.frame(x = n[1]), interval = "prediction")
  cat(sprintf("%.15g", c(coef(fit), s$coefficients[, 2], s$sigma, s$r.squared, p$fit, p$se.fit,
                         (i[1, "upr"] - i[1, "lwr"]) / 2, (n[2] - coef(fit)[1]) / coef(fit)[2])), "\n")
}
