# Bivariate normals fitted by maximum likelihood to misses some of which are known only as beyond 45 m: Rscript censored_normal.R
# R 4.2.2, numDeriv 2016.8-1.1. Writes misses.csv and fits.csv. The share beyond a circle is integrated over the angle about its centre, the
# radial integral in closed form: another way than the chords of the library. The maximum by BFGS, then Newton steps by numDeriv.
library(numDeriv)
set.seed(20310714)
n <- 48
z <- matrix(rnorm(2 * n), n)
x <- cbind(12 + 30 * z[, 1], -6 + 30 * 0.5 * z[, 1] + 20 * z[, 2])
x <- round(x, 1)
beyond <- sqrt(rowSums(x^2)) > 45
write.csv(data.frame(downwind = ifelse(beyond, NA, x[, 1]), right = ifelse(beyond, NA, x[, 2]), beyond = ifelse(beyond, 45, NA)),
          "misses.csv", row.names = FALSE, quote = FALSE)

log_beyond <- function(m, S, r) {
  P <- solve(S)
  f <- function(angle) sapply(angle, function(a) {
    u <- c(cos(a), sin(a))
    A <- sum(u * (P %*% u)); B <- sum(u * (P %*% m)); C <- sum(m * (P %*% m))
    # integral over rho from r of rho exp(-(A rho^2 - 2 B rho + C) / 2)
    c0 <- B / A
    exp(-(C - B^2 / A) / 2) * (exp(-A * (r - c0)^2 / 2) / A + c0 * sqrt(2 * pi / A) * pnorm(sqrt(A) * (r - c0), lower.tail = FALSE))
  })
  k <- 2000 # the integrand is periodic and smooth: equal steps are exact to rounding
  log(mean(f(2 * pi * (1:k) / k)) / sqrt(det(S)))
}

placed <- x[!beyond, ]
unpack <- list(
  full = function(p) list(m = p[1:2], S = matrix(c(p[3]^2, p[5] * p[3] * p[4], p[5] * p[3] * p[4], p[4]^2), 2)),
  circle = function(p) list(m = p[1:2], S = diag(2) * p[3]^2),
  centred = function(p) list(m = c(0, 0), S = matrix(c(p[1]^2, p[3] * p[1] * p[2], p[3] * p[1] * p[2], p[2]^2), 2)),
  both = function(p) list(m = c(0, 0), S = diag(2) * p[1]^2)
)
start <- list(full = c(8, -5, 25, 22, 0.4), circle = c(8, -5, 24), centred = c(25, 22, 0.4), both = 25)
rows <- list()
for (form in names(unpack)) {
  ll <- function(p) {
    q <- unpack[[form]](p)
    if (any(diag(q$S) <= 0) || det(q$S) <= 0) return(-1e10)
    d <- sweep(placed, 2, q$m)
    sum(-0.5 * rowSums((d %*% solve(q$S)) * d) - 0.5 * log(det(q$S)) - log(2 * pi)) + sum(beyond) * log_beyond(q$m, q$S, 45)
  }
  p <- optim(start[[form]], function(p) -ll(p), method = "BFGS", control = list(reltol = 1e-14, maxit = 500))$par
  for (i in 1:3) p <- p - solve(hessian(ll, p), grad(ll, p))
  se <- sqrt(diag(solve(-hessian(ll, p, method.args = list(r = 6))))) # four rounds of Richardson leave 1e-5 of an error in one case
  rows[[form]] <- data.frame(form = form, parameter = seq_along(p), value = sprintf("%.12g", p), standard_error = sprintf("%.10g", se), log_likelihood = sprintf("%.13g", ll(p)))
}
write.csv(do.call(rbind, rows), "fits.csv", row.names = FALSE, quote = FALSE)
