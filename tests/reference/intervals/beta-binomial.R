# Beta-binomial maximum likelihood and profile limits of the mean. R 4.2.2.
# The likelihood is written with beta functions; the likeness is profiled by optimize on two scales.
loglik <- function(mean, rho, y, n) {
  if (rho < 1e-10) return(sum(dbinom(y, n, mean, log = TRUE)))
  s <- (1 - rho) / rho
  sum(lchoose(n, y) + lbeta(y + mean * s, n - y + (1 - mean) * s) - lbeta(mean * s, (1 - mean) * s))
}
best <- function(mean, y, n) {
  inner <- optimize(function(r) loglik(mean, r, y, n), c(1e-7, 1 - 1e-9), maximum = TRUE, tol = 1e-12)
  logit <- optimize(function(l) loglik(mean, plogis(l), y, n), c(-12, 20), maximum = TRUE, tol = 1e-12)
  max(inner$objective, logit$objective, loglik(mean, 0, y, n))
}
profile_limits <- function(y, n, confidence) {
  top <- optim(c(qlogis(sum(y) / sum(n)), qlogis(0.1)), function(x) -loglik(plogis(x[1]), plogis(x[2]), y, n),
    control = list(reltol = 1e-16, maxit = 5000))
  top <- optim(top$par, function(x) -loglik(plogis(x[1]), plogis(x[2]), y, n), method = "BFGS", control = list(reltol = 1e-16))
  mean <- plogis(top$par[1]); value <- -top$value
  if (loglik(sum(y) / sum(n), 0, y, n) > value - 1e-7) { mean <- sum(y) / sum(n); value <- loglik(mean, 0, y, n) }
  floor <- value - qt((1 + confidence) / 2, length(y) - 1)^2 / 2
  low <- uniroot(function(m) best(m, y, n) - floor, c(1e-9, mean), tol = 1e-13)$root
  high <- uniroot(function(m) best(m, y, n) - floor, c(mean, 1 - 1e-9), tol = 1e-13)$root
  cat(sprintf("mean %.10f rho %.8f loglik %.9f limits %.10f %.10f\n", mean, plogis(top$par[2]), value, low, high))
}
herds <- list(y = c(9, 5, 12, 4, 6, 4, 12, 12, 2, 4, 9, 3, 3, 11, 3), n = c(40, 61, 74, 35, 71, 72, 40, 34, 29, 84, 96, 29, 87, 26, 64))
profile_limits(herds$y, herds$n, 0.95)
profile_limits(herds$y, herds$n, 0.90)
rows <- lme4::cbpp
profile_limits(rows$incidence, rows$size, 0.95)
# sticks of 1 to 6, alike; sticks that agree by luck
profile_limits(c(4, 0, 3, 5, 2, 1, 6, 3, 0, 4), c(4, 2, 3, 6, 5, 1, 6, 4, 3, 4), 0.95)
profile_limits(c(2, 2, 2, 3), c(4, 4, 4, 5), 0.95)
# the seeds of Crowder (1978), 21 plates
profile_limits(c(10, 23, 23, 26, 17, 5, 53, 55, 32, 46, 10, 8, 10, 8, 23, 0, 3, 22, 15, 32, 3),
  c(39, 62, 81, 51, 39, 6, 74, 72, 51, 79, 13, 16, 30, 28, 45, 4, 12, 41, 30, 51, 7), 0.95)
