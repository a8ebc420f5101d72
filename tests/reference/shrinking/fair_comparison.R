# Spotters compared, by dense matrices, from the formulas: penalised logistic fit, quasi-likelihood covariance, efficient score, score interval. Base R 4.2.2.
options(digits = 15)
d <- read.csv("../pooling/counts.csv"); d <- d[d$landings > 0, ]
missions <- unique(d$mission); d$s <- (match(d$mission, missions) - 1) %% 5 + 1
cell <- paste(d$band, d$terrain)
ind <- function(f) { l <- unique(f); sapply(l, function(x) as.numeric(f == x)) }
C <- cbind(1, ind(d$band), ind(d$terrain), ind(cell)); S <- sapply(1:5, function(k) as.numeric(d$s == k)); X <- cbind(C, S)
pc <- c(0, rep(1 / 4, length(unique(d$band)) + length(unique(d$terrain))), rep(4, length(unique(cell)))); pull <- c(pc, rep(1, 5)); k <- 5; m <- ncol(C)
b <- rep(0, ncol(X)); n <- d$landings
for (i in 1:100) { p <- plogis(X %*% b)[, 1]; w <- n * p * (1 - p); H <- t(X) %*% (w * X) + diag(pull); b <- b + solve(H, t(X) %*% (d$hits - n * p) - pull * b)[, 1] }
p <- plogis(X %*% b)[, 1]; w <- n * p * (1 - p); H <- t(X) %*% (w * X) + diag(pull); Hi <- solve(H)
r <- tapply(d$hits - n * p, d$mission, sum); v <- tapply(w, d$mission, sum); sp <- tapply(d$s, d$mission, function(x) x[1])
M <- length(r); fitted <- sum(diag(Hi %*% (H - diag(pull)))); whole <- sum(r^2) / sum(v) * M / (M - fitted)
phi <- sapply(1:k, function(s) { f <- sp == s; mm <- sum(f); max(1, ((mm - 1) * sum(r[f]^2) / sum(v[f]) * mm / (mm - 1) + 20 * whole) / (mm - 1 + 20)) })
meat <- t(X) %*% (w * phi[d$s] * X); Cov <- Hi %*% (meat + diag(pull)) %*% Hi
A <- t(S) %*% (w * C) %*% solve(t(C) %*% (w * C) + diag(pc)); J <- t(S) %*% (w * S) - A %*% t(C) %*% (w * S)
J <- MASS::ginv(J); R <- cbind(-A, diag(k)); B <- R %*% (meat + diag(c(pc, rep(0, k)))) %*% t(R)
delta <- b[m + 1:k]; z <- delta + J %*% delta; V <- J %*% B %*% t(J)
K <- contr.helmert(k); Q <- as.numeric(t(t(K) %*% z) %*% solve(t(K) %*% V %*% K, t(K) %*% z))
out <- function(what, s, value) cat(sprintf("%s,%d,%.12g\n", what, s, value))
cat("what,spotter,value\n"); out("Q", 0, Q)
for (s in 1:k) {
  f <- d$s == s; nt <- tapply(n, d$s, sum); nt[s] <- 0; sh <- nt / sum(nt)
  base <- (C %*% b[1:m])[f, 1]; pr <- sapply(base, function(e) sum(sh * plogis(e + delta))); e <- qlogis(pr); ns <- n[f]; O <- sum(d$hits[f])
  h <- c(colSums(w[f] * C[f, ]) / sum(w[f]), sh); rv <- as.numeric(t(h) %*% Cov %*% h); mm <- sum(sp == s); tq <- qt(.975, mm - 1 + 20)
  hits <- function(x) sum(ns * plogis(e + x)); W <- function(x) { q <- plogis(e + x); sum(ns * q * (1 - q)) }
  g <- function(x, side) side * (hits(x) - O) - tq * sqrt(phi[s] * W(x) + W(x)^2 * rv)
  mid <- uniroot(function(x) hits(x) - O, c(-12, 12), tol = 1e-14)$root
  lo <- uniroot(function(x) g(x, -1), c(mid - 2.5, mid), tol = 1e-14)$root; hi <- uniroot(function(x) g(x, 1), c(mid, mid + 2.5), tol = 1e-14)$root
  out("expected", s, hits(0)); out("low", s, (hits(lo) - hits(0)) / sum(ns)); out("high", s, (hits(hi) - hits(0)) / sum(ns)); out("dispersion", s, phi[s])
  out("p", s, 2 * pt(-abs(O - hits(0)) / sqrt(phi[s] * W(0) + W(0)^2 * rv), mm - 1 + 20))
}
