# Makes counts.csv (invented: missions with one or two passes, effects of missions and cells) and reference.csv (fits by lme4).
# usage: Rscript pooling_reference.R FOLDER (this one: it also reads ../storms-2005-2021)
suppressMessages(library(lme4)); out <- commandArgs(TRUE)[1]; set.seed(20240611)
bands <- c("0-5", "5-10", "10-15", "15+"); terrains <- c("closed timber", "meadow", "ridge lee")
cell <- matrix(rnorm(12, 0, .7), 4); M <- 150
rows <- NULL
for (m in 1:M) {
  u <- rnorm(1, 0, .9); z <- sample(3, 1, prob = c(.3, .5, .2)); passes <- sample(1:2, 1, prob = c(.6, .4)); b <- sample(4, passes, prob = c(.35, .35, .2, .1))
  for (k in b) { n <- sample(2:6, 1); p <- plogis(1.6 - .45*(k - 1) + c(0, .5, -.4)[z] + cell[k, z] + u); rows <- rbind(rows, data.frame(mission = sprintf("m%03d", m), band = bands[k], terrain = terrains[z], hits = rbinom(1, n, p), landings = n)) }
}
rows <- aggregate(cbind(hits, landings) ~ mission + band + terrain, rows, sum)
rows <- rows[order(match(rows$band, bands), rows$terrain, rows$mission), ]
write.csv(rows, file.path(out, "counts.csv"), row.names = FALSE, quote = FALSE)
d <- rows; d$band <- factor(d$band, levels = bands); d$terrain <- factor(d$terrain); d$cell <- interaction(d$band, d$terrain, drop = TRUE)
# Landings one by one, so that the log-likelihood has no binomial coefficients.
long <- d[rep(seq_len(nrow(d)), d$landings), ]; long$hit <- unlist(lapply(seq_len(nrow(d)), function(i) rep(c(1, 0), c(d$hits[i], d$landings[i] - d$hits[i]))))
res <- NULL; add <- function(model, q, v) res <<- rbind(res, data.frame(model = model, quantity = q, value = sprintf("%.12g", v)))
# lme4's usual search stops where its values, not its parameters, are settled: a few Newton steps on the same function end it.
polished <- function(fn, par, lower, upper, control) {
  o <- nloptwrap(par, fn, lower, upper, control); x <- o$par
  for (i in 1:4) x <- x - solve(numDeriv::hessian(fn, x), numDeriv::grad(fn, x))
  list(par = x, fval = fn(x), conv = 0, feval = o$feval, message = "")
}
tight <- glmerControl(optimizer = polished, tolPwrss = 1e-13, calc.derivs = TRUE, optCtrl = list(algorithm = "NLOPT_LN_BOBYQA", xtol_abs = 1e-9, ftol_abs = 1e-13, xtol_rel = 1e-12, ftol_rel = 1e-15, maxeval = 1e5))
fit <- function(name, formula, nodes, data = long) {
  f <- suppressWarnings(glmer(formula, data, family = binomial, nAGQ = nodes, control = tight))
  se <- suppressWarnings(sqrt(diag(as.matrix(vcov(f)))))
  for (i in names(fixef(f))) { add(name, i, fixef(f)[[i]]); add(name, paste0("se ", i), se[[i]]) }
  v <- as.data.frame(VarCorr(f)); for (i in seq_len(nrow(v))) add(name, paste0("sd ", v$grp[i]), v$sdcor[i])
  # Landings one by one: lme4's log-likelihood is complete for any number of nodes.
  add(name, "logLik", as.numeric(logLik(f)))
  # lme4's inner search leaves its value about 1e-6 off: the same at the same place, each mission's mode found to the end.
  if (nodes == 25) add(name, "direct", marginal(f, data)) else if (nodes == 1 && length(getME(f, "theta")) == 1) add(name, "direct", laplace(f, data))
  r <- ranef(f, condVar = TRUE)
  for (g in names(r)) { x <- r[[g]]; s <- sqrt(as.vector(attr(x, "postVar"))); for (i in seq_len(nrow(x))) if (g == "cell" || i <= 20) { add(name, paste0(g, " ", rownames(x)[i]), x[i, 1]); add(name, paste0("se ", g, " ", rownames(x)[i]), s[i]) } }
}
# The log-likelihood by R's own integrate(), mission by mission.
marginal <- function(f, data) { X <- model.matrix(f); eta <- as.vector(X %*% fixef(f)); sd <- sqrt(unlist(VarCorr(f))); s <- split(seq_along(eta), data$mission)
  sum(sapply(s, function(i) { g <- function(u) sapply(u, function(v) exp(sum(dbinom(data$hit[i], 1, plogis(eta[i] + sd*v), log = TRUE)) + dnorm(v, log = TRUE))); log(integrate(g, -Inf, Inf, rel.tol = 1e-12, subdivisions = 1000)$value) })) }
# Laplace's approximation, mission by mission.
laplace <- function(f, data) { eta <- as.vector(model.matrix(f) %*% fixef(f)); sd <- sqrt(unlist(VarCorr(f)))
  sum(sapply(split(seq_along(eta), data$mission), function(i) { u <- 0; y <- data$hit[i]
    for (k in 1:100) { p <- plogis(eta[i] + sd*u); u <- u + (sd*sum(y - p) - u)/(1 + sd^2*sum(p*(1 - p))) }
    e <- eta[i] + sd*u; p <- plogis(e); sum(y*e - log1p(exp(e))) - u^2/2 - log(1 + sd^2*sum(p*(1 - p)))/2 })) }
fit("cells", hit ~ band + terrain + (1|cell) + (1|mission), 1)
fit("additive", hit ~ band + terrain + (1|mission), 1)
fit("additive 25", hit ~ band + terrain + (1|mission), 25)
fit("additive 7", hit ~ band + terrain + (1|mission), 7)
fit("interaction", hit ~ band * terrain + (1|mission), 1)
# The storms record of ../storms-2005-2021 with the same tight inner tolerance; its own reference.csv has lme4's default one.
s <- merge(read.csv(file.path(out, "../storms-2005-2021/drops.csv")), read.csv(file.path(out, "../storms-2005-2021/landings.csv")), by = "drop_id")
s$hit <- as.numeric(sqrt(s$landing_east_nm^2 + s$landing_north_nm^2) <= s$target_radius_nm)
s$band <- cut(s$wind_speed_kt, c(0, 5, 10, 15, Inf), right = FALSE, labels = c("0-5", "5-10", "10-15", "15+"))
s$terrain <- factor(s$terrain, levels = c("20N-30N", "north of 30N", "south of 20N"))
fit("storms", hit ~ band + terrain + (1|mission), 1, s)
write.csv(res, file.path(out, "reference.csv"), row.names = FALSE, quote = FALSE)
cat(nrow(d), "counts,", sum(d$landings), "landings; R", as.character(getRversion()), "lme4", as.character(packageVersion("lme4")), "\n")
