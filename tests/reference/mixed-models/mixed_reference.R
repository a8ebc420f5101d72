# Reference figures for two-level models of misses, three ways: (1) direct maximisation of the dense multivariate normal likelihood (base R),
# (2) lme of the package nlme, (3) lmer of the package lme4 with tight tolerances, for one axis.
# usage: Rscript mixed_reference.R OUT_FOLDER   writes landings.csv (made here, seed below) and reference.csv
suppressMessages({library(nlme); library(lme4)})
out <- commandArgs(TRUE)[1]; set.seed(20310714)
res <- NULL
add <- function(model, method, source, quantity, value) res <<- rbind(res, data.frame(model = model, method = method, source = source, quantity = quantity, value = sprintf("%.14g", value)))

# Landings: 5 spotters, 24 missions of 1 to 7 landings, one spotter a mission.
n <- c(1, 4, 7, 2, 3, 5, 6, 2, 4, 1, 3, 8, 2, 5, 4, 3, 6, 2, 7, 4, 5, 3, 2, 6); M <- length(n); sp <- rep(1:5, length.out = M)
gauss <- function(k, S) matrix(rnorm(2*k), k) %*% chol(S)
Es <- gauss(5, matrix(c(500, 150, 150, 400), 2)); Eb <- gauss(M, matrix(c(300, -80, -80, 150), 2))
m <- rep(seq_len(M), n); N <- length(m); Y <- round(cbind(rep(12, N), -7) + Es[sp[m],] + Eb[m,] + gauss(N, matrix(c(220, 60, 60, 160), 2)), 2)
s <- sp[m]
write.csv(data.frame(mission = paste0("m", m), spotter = paste0("s", s), downwind = Y[,1], right = Y[,2]), file.path(out, "landings.csv"), row.names = FALSE, quote = FALSE)

# (1) Dense: y stacked by landing, axis fastest. theta: Cholesky factors of Sigma_within, Sigma_between (, Sigma_spotter).
tri <- function(t) matrix(c(t[1], t[2], 0, t[3]), 2)
sig <- function(t) tcrossprod(tri(t))
y <- as.vector(t(Y)); X <- kronecker(rep(1, N), diag(2)); Zm <- outer(m, m, "=="); Zs <- outer(s, s, "==")
V <- function(th) { v <- kronecker(diag(N), sig(th[1:3])) + kronecker(Zm, sig(th[4:6])); if (length(th) > 6) v <- v + kronecker(Zs, sig(th[7:9])); v }
dev <- function(th, reml) {
  R <- tryCatch(chol(V(th)), error = function(e) NULL); if (is.null(R)) return(1e10)
  Xs <- backsolve(R, X, transpose = TRUE); ys <- backsolve(R, y, transpose = TRUE); A <- crossprod(Xs); b <- solve(A, crossprod(Xs, ys))
  d <- 2*sum(log(diag(R))) + sum((ys - Xs %*% b)^2) + (2*N - if (reml) 2 else 0)*log(2*pi)
  if (reml) d <- d + as.numeric(determinant(A)$modulus); d }
grad <- function(f, x, h = 2e-3) sapply(seq_along(x), function(i) { e <- replace(0*x, i, h); (8*(f(x+e)-f(x-e)) - (f(x+2*e)-f(x-2*e)))/(12*h) })
hess <- function(f, x) { H <- sapply(seq_along(x), function(i) { e <- replace(0*x, i, 1e-2); (8*(grad(f, x+e)-grad(f, x-e)) - (grad(f, x+2*e)-grad(f, x-2*e)))/(12*1e-2) }); (H+t(H))/2 }
for (spot in c(FALSE, TRUE)) for (reml in c(TRUE, FALSE)) {
  model <- if (spot) "misses with spotters" else "misses"; method <- if (reml) "REML" else "ML"
  f <- function(th) dev(th, reml); th <- c(15, 4, 12, 17, -4, 11, if (spot) c(20, 6, 15))
  for (i in 1:3) th <- optim(th, f, method = "BFGS", control = list(reltol = 1e-16, maxit = 2000))$par
  for (i in 1:4) th <- th - solve(hess(f, th), grad(f, th))
  stopifnot(max(abs(grad(f, th))) < 1e-7)
  R <- chol(V(th)); W <- chol2inv(R); C <- solve(t(X) %*% W %*% X); b <- C %*% t(X) %*% W %*% y; e <- W %*% (y - X %*% b)
  P <- W - W %*% X %*% C %*% t(X) %*% W
  H <- hess(f, th)/2; K <- solve(H)
  S <- list(within = 1:3, between = 4:6, spotter = 7:9)[seq_len(length(th)/3)]
  for (k in names(S)) { i <- S[[k]]; v <- sig(th[i]); t3 <- th[i]
    J <- rbind(c(2*t3[1], 0, 0), c(t3[2], t3[1], 0), c(0, 2*t3[2], 2*t3[3])); se <- sqrt(diag(J %*% K[i, i] %*% t(J)))
    for (j in 1:3) { q <- c("downwind", "cross", "right")[j]; add(model, method, "dense", paste(k, q), c(v[1,1], v[2,1], v[2,2])[j]); add(model, method, "dense", paste("se", k, q), se[j]) } }
  for (a in 1:2) { q <- c("downwind", "right")[a]; add(model, method, "dense", paste("bias", q), b[a]); add(model, method, "dense", paste("se bias", q), sqrt(C[a,a])) }
  add(model, method, "dense", "logLik", -f(th)/2)
  # Predictions and the covariance of their errors: effect = G Z' V^-1 (y - X b), error covariance G - G Z' P Z G.
  eff <- function(name, z, G, who) for (k in who) { Z <- kronecker(matrix(as.numeric(z == k)), diag(2)); u <- G %*% t(Z) %*% e; E <- G - G %*% t(Z) %*% P %*% Z %*% G
    for (a in 1:2) { q <- c("downwind", "right")[a]; add(model, method, "dense", paste(name, k, q), u[a]); add(model, method, "dense", paste("se", name, k, q), sqrt(E[a,a])) } }
  eff("mission", m, sig(th[4:6]), c(1, 3, 12)); if (spot) eff("spotter", s, sig(th[7:9]), 1:5)
  # (2) nlme.
  if (!spot) {
    d <- data.frame(y = y, axis = factor(rep(1:2, N)), mission = factor(rep(m, each = 2)), landing = factor(rep(seq_len(N), each = 2)))
    g <- lme(y ~ 0 + axis, d, random = ~ 0 + axis | mission, correlation = corSymm(form = ~ 1 | mission/landing), weights = varIdent(form = ~ 1 | axis), method = method,
      control = lmeControl(maxIter = 500, msMaxIter = 500, niterEM = 100, tolerance = 1e-10, msTol = 1e-12, opt = "optim"))
    G <- getVarCov(g); sd <- g$sigma * c(1, coef(g$modelStruct$varStruct, unconstrained = FALSE)); r <- coef(g$modelStruct$corStruct, unconstrained = FALSE)
    add(model, method, "nlme", "between downwind", G[1,1]); add(model, method, "nlme", "between cross", G[1,2]); add(model, method, "nlme", "between right", G[2,2])
    add(model, method, "nlme", "within downwind", sd[1]^2); add(model, method, "nlme", "within cross", r*sd[1]*sd[2]); add(model, method, "nlme", "within right", sd[2]^2)
    add(model, method, "nlme", "logLik", as.numeric(logLik(g))) } }

# (3) lme4 with tight tolerances, and the profile of Dyestuff by direct search.
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 2e-2, rhoend = 1e-10, maxfun = 1e5), calc.derivs = FALSE)
one <- function(model, formula, data) for (reml in c(TRUE, FALSE)) { g <- lmer(formula, data, REML = reml, control = tight); vc <- as.data.frame(VarCorr(g)); method <- if (reml) "REML" else "ML"
  for (i in seq_len(nrow(vc))) add(model, method, "lme4", paste("var", vc$grp[i]), vc$vcov[i])
  for (i in names(fixef(g))) { add(model, method, "lme4", i, fixef(g)[[i]]); add(model, method, "lme4", paste("se", i), sqrt(diag(as.matrix(vcov(g))))[[i]]) }
  add(model, method, "lme4", "logLik", as.numeric(logLik(g))) }
one("Dyestuff", Yield ~ 1 + (1 | Batch), Dyestuff); one("Dyestuff2", Yield ~ 1 + (1 | Batch), Dyestuff2)
one("Penicillin", diameter ~ 1 + (1 | plate) + (1 | sample), Penicillin); one("sleepstudy", Reaction ~ Days + (1 | Subject), sleepstudy)
one("downwind with spotters", downwind ~ 1 + (1 | mission) + (1 | spotter), data.frame(downwind = Y[,1], mission = factor(m), spotter = factor(s)))
k <- Dyestuff$Batch; yy <- Dyestuff$Yield; yb <- tapply(yy, k, mean); ssw <- sum((yy - yb[k])^2)
D <- function(sb, sw, mu) { v <- sw^2 + 5*sb^2; 30*log(2*pi) + 24*log(sw^2) + 6*log(v) + ssw/sw^2 + 5*sum((yb - mu)^2)/v }
lo <- function(f, a, b) optimize(f, c(a, b), tol = 1e-12)$objective
mu <- mean(yy); best <- D(sqrt(1388.3333333333333), sqrt(2451.25), mu); cut <- best + qchisq(.95, 1)
pb <- function(sb) lo(function(w) D(sb, w, mu), 20, 200) - cut; pw <- function(w) lo(function(sb) D(sb, w, mu), 0, 200) - cut
pm <- function(x) lo(function(w) lo(function(sb) D(sb, w, x), 0, 400), 20, 200) - cut
root <- function(f, a, b) uniroot(f, c(a, b), tol = 1e-11)$root
add("Dyestuff", "profile", "dense", "sd between low", root(pb, 1, 30)); add("Dyestuff", "profile", "dense", "sd between high", root(pb, 40, 200))
add("Dyestuff", "profile", "dense", "sd within low", root(pw, 25, 45)); add("Dyestuff", "profile", "dense", "sd within high", root(pw, 55, 120))
add("Dyestuff", "profile", "dense", "mean low", root(pm, 1400, 1520)); add("Dyestuff", "profile", "dense", "mean high", root(pm, 1535, 1700))
write.csv(res, file.path(out, "reference.csv"), row.names = FALSE, quote = FALSE)
cat(nrow(res), "figures;", R.version.string, "nlme", as.character(packageVersion("nlme")), "lme4", as.character(packageVersion("lme4")), "\n")
