# Random-effects means and correlated differences, straight from their definitions, in base R.
options(digits = 15)
out <- function(set, what, value) cat(sprintf("%s,%s,%.14g\n", set, what, value))
q <- function(y, v, t) { w <- 1 / (v + t); m <- sum(w * y) / sum(w); sum(w * (y - m)^2) }
root <- function(f, high = 50) uniroot(f, c(0, high), tol = 1e-15, maxiter = 10000)$root
loglik <- function(y, v, t, reml) { w <- 1 / (v + t); m <- sum(w * y) / sum(w)
  0.5 * sum(log(w)) - 0.5 * sum(w * (y - m)^2) - if (reml) 0.5 * log(sum(w)) else 0 }
score <- function(y, v, t, reml) { w <- 1 / (v + t); m <- sum(w * y) / sum(w)
  sum(w^2 * (y - m)^2) - sum(w) + if (reml) sum(w^2) / sum(w) else 0 }
cat("set,what,value\n")
vac <- read.csv("vaccine.csv")
n1 <- vac$tpos + vac$tneg; n2 <- vac$cpos + vac$cneg
sets <- list(vaccine = list(y = log(vac$tpos / n1) - log(vac$cpos / n2), v = 1 / vac$tpos - 1 / n1 + 1 / vac$cpos - 1 / n2),
  viechtbauer = list(y = c(-.581, .530, .771, 1.031, .553, .295, .078, .573, -.176, -.232), v = c(.023, .052, .060, .115, .095, .203, .200, .211, .051, .040)))
for (s in names(sets)) {
  y <- sets[[s]]$y; v <- sets[[s]]$v; k <- length(y); w <- 1 / v
  out(s, "HedgesTau2", max(0, var(y) - mean(v)))
  out(s, "HunterSchmidtTau2", (q(y, v, 0) - k) / sum(w))
  out(s, "DerSimonianLairdTau2", (q(y, v, 0) - (k - 1)) / (sum(w) - sum(w^2) / sum(w)))
  t0 <- var(y) * (k - 1) / k; out(s, "SidikJonkmanTau2", t0 * q(y, v, t0) / (k - 1))
  out(s, "PauleMandelTau2", root(function(t) q(y, v, t) - (k - 1)))
  for (r in c(TRUE, FALSE)) out(s, if (r) "RestrictedLikelihoodTau2" else "MaximumLikelihoodTau2", root(function(t) score(y, v, t, r)))
  out(s, "ProfileLow", if (q(y, v, 0) > qchisq(.975, k - 1)) root(function(t) q(y, v, t) - qchisq(.975, k - 1)) else 0)
  out(s, "ProfileHigh", root(function(t) q(y, v, t) - qchisq(.025, k - 1)))
  t <- root(function(t) score(y, v, t, TRUE)); w <- 1 / (v + t); m <- sum(w * y) / sum(w); se <- sqrt(1 / sum(w))
  kh <- sqrt(sum(w * (y - m)^2) / (k - 1) / sum(w))
  out(s, "Mean", m); out(s, "Error", se); out(s, "KnappHartungError", kh); out(s, "Q", q(y, v, 0)); out(s, "QP", pchisq(q(y, v, 0), k - 1, lower.tail = FALSE))
  out(s, "KnappHartungLow", m - qt(.975, k - 1) * kh); out(s, "KnappHartungHigh", m + qt(.975, k - 1) * kh)
  for (i in 1:k) { l <- t / (t + v[i]); out(s, paste0("Effect", i), l * y[i] + (1 - l) * m); out(s, paste0("EffectError", i), sqrt(l * v[i] + (1 - l)^2 * se^2)) }
  # Correlated: every estimate less a shared reference of variance 0.3, and a chain of correlations between neighbours.
  V <- diag(v); for (i in 2:k) V[i, i - 1] <- V[i - 1, i] <- 0.4 * sqrt(v[i] * v[i - 1]); V <- V + 0.3
  A <- qr.Q(qr(cbind(1, diag(k)[, -1])))[, -1]; z <- t(A) %*% y
  dev <- function(t) { S <- t(A) %*% (V + t * diag(k)) %*% A; as.numeric(determinant(S)$modulus + t(z) %*% solve(S, z)) }
  ddev <- function(t) { S <- solve(t(A) %*% (V + t * diag(k)) %*% A); sum(diag(S)) - sum((S %*% z)^2) }
  t <- root(ddev); out(s, "CorrelatedTau2", t)
  C <- t(A) %*% V %*% A; out(s, "CorrelatedQ", as.numeric(t(z) %*% solve(C, z)))
  S <- t(A) %*% (V + t * diag(k)) %*% A; G <- t * A
  u <- G %*% solve(S, z); P <- t * diag(k) - G %*% solve(S, t(G)); a <- c(1, rep(-1 / (k - 1), k - 1))
  # Averaged over the spread with a half-normal of sd 0.5, by adaptive integration.
  wt <- Vectorize(function(x) exp(-0.5 * (dev(x^2) - dev(t)) - x^2 / (2 * 0.25)))
  mean1 <- Vectorize(function(x) { S <- t(A) %*% (V + x^2 * diag(k)) %*% A; as.numeric(t(a) %*% (x^2 * A %*% solve(S, z))) })
  var1 <- Vectorize(function(x) { S <- t(A) %*% (V + x^2 * diag(k)) %*% A; G <- x^2 * A; as.numeric(t(a) %*% (x^2 * diag(k) - G %*% solve(S, t(G))) %*% a) })
  int <- function(f) integrate(function(x) f(x) * wt(x), 0, 4, rel.tol = 1e-11, subdivisions = 2000)$value / integrate(wt, 0, 4, rel.tol = 1e-11, subdivisions = 2000)$value
  out(s, "AveragedFirst", int(mean1))
  out(s, "FirstBelowZero", int(function(x) pnorm(-mean1(x) / sqrt(pmax(var1(x), 1e-300)))))
}
# Means shrunk by the empirical Bayes of Morris (1983), from its equations.
y <- sets$viechtbauer$y; v <- sets$viechtbauer$v; k <- length(y)
A <- root(function(t) q(y, v, t) - (k - 1)); W <- 1 / (v + A); m <- sum(W * y) / sum(W)
B <- (k - 3) / (k - 1) * v / (v + A); r <- k * W / sum(W); Vbar <- sum(W * v) / sum(W)
vi <- 2 / (k - 3) * B^2 * (Vbar + A) / (v + A)
s2 <- v * (1 - (k - r) / k * B) + vi * (y - m)^2
for (i in 1:k) { out("morris", paste0("Value", i), m + (1 - B[i]) * (y[i] - m)); out("morris", paste0("Error", i), sqrt(s2[i])) }
