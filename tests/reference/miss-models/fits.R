# Maximum likelihood of the t and of the mixture of two spreads on the misses of ../storms-2005-2021 (nautical miles, downwind and right),
# by direct optimisation in base R: every miss placed, and misses of more than 60 nm known only as beyond 60.
# Then Vuong's statistic of the fits over storms.
# usage: Rscript fits.R ../storms-2005-2021 fits.csv
a <- commandArgs(TRUE)
d <- merge(read.csv(file.path(a[1], "drops.csv")), read.csv(file.path(a[1], "landings.csv")), by = "drop_id")
len <- sqrt(d$forecast_east_nm^2 + d$forecast_north_nm^2); ue <- d$forecast_east_nm/len; un <- d$forecast_north_nm/len
x <- d$landing_east_nm*ue + d$landing_north_nm*un; y <- d$landing_east_nm*un - d$landing_north_nm*ue
mission <- factor(d$mission); limit <- 60

unpack <- function(p) list(m = p[1:2], v = exp(2*p[3:4]), c = tanh(p[5])*exp(p[3]+p[4]))
square <- function(s) { u <- x - s$m[1]; w <- y - s$m[2]; (s$v[2]*u^2 - 2*s$c*u*w + s$v[1]*w^2)/(s$v[1]*s$v[2] - s$c^2) }
det2 <- function(s) s$v[1]*s$v[2] - s$c^2
# Probability beyond the limit by chords: the conditional distribution of y outside the chord, and x outside the circle.
chord <- function(s, density, below, scale) {
  f <- function(t) { u <- limit*sin(t); h <- limit*cos(t); m <- s$m[2] + s$c/s$v[1]*(u - s$m[1]); k <- scale(u); density(u)*(below((-h-m)/k) + below(-(h-m)/k))*h }
  integrate(f, -pi/2, pi/2, rel.tol = 1e-12, subdivisions = 2000)$value }
beyond_normal <- function(s) { sd <- sqrt(s$v[1]); rest <- sqrt(det2(s)/s$v[1])
  chord(s, function(u) dnorm(u, s$m[1], sd), pnorm, function(u) rest) + pnorm(-limit, s$m[1], sd) + pnorm(limit, s$m[1], sd, lower.tail = FALSE) }
beyond_t <- function(s, nu) { sd <- sqrt(s$v[1]); rest <- det2(s)/s$v[1]
  chord(s, function(u) dt((u - s$m[1])/sd, nu)/sd, function(q) pt(q, nu + 1), function(u) sqrt(rest*(nu + ((u - s$m[1])/sd)^2)/(nu + 1))) +
    pt((-limit - s$m[1])/sd, nu) + pt((limit - s$m[1])/sd, nu, lower.tail = FALSE) }

each_t <- function(p, censor) { s <- unpack(p); nu <- exp(p[6])
  l <- -log(2*pi) - log(det2(s))/2 - (nu + 2)/2*log1p(square(s)/nu); if (censor) l[x^2 + y^2 > limit^2] <- log(beyond_t(s, nu)); l }
each_mix <- function(p, censor) { s <- unpack(p); w <- plogis(p[6]); k <- 1 + exp(p[7]); q <- square(s)
  l <- -log(2*pi) - log(det2(s))/2 + log((1 - w)*exp(-q/2) + w/k^2*exp(-q/(2*k^2)))
  if (censor) { wide <- s; wide$v <- k^2*s$v; wide$c <- k^2*s$c; l[x^2 + y^2 > limit^2] <- log((1 - w)*beyond_normal(s) + w*beyond_normal(wide)) }; l }

best <- function(each, starts, censor) { f <- function(p) { v <- tryCatch(suppressWarnings(-sum(each(p, censor))), error = function(e) NA); if (is.finite(v)) v else 1e10 }; top <- NULL
  for (s in starts) { s <- optim(s, f, control = list(maxit = 5000, reltol = 1e-12))$par; o <- optim(s, f, method = "BFGS", control = list(maxit = 2000, reltol = 1e-15, ndeps = rep(1e-5, length(s))))
    for (i in 1:6) { g <- sapply(seq_along(o$par), function(j) { h <- 1e-4; e <- replace(numeric(length(o$par)), j, h); (f(o$par + e) - f(o$par - e))/(2*h) })
      o$par <- o$par - solve(optimHess(o$par, f, control = list(ndeps = rep(1e-4, length(s)))), g) }
    o$value <- f(o$par); if (is.null(top) || o$value < top$value) top <- o }
  top$h <- optimHess(top$par, f, control = list(ndeps = rep(1e-4, length(top$par)))); top }
robust <- function(top, each, censor) { s <- sapply(seq_along(top$par), function(j) { e <- replace(numeric(length(top$par)), j, 1e-4)
    tapply((each(top$par + e, censor) - each(top$par - e, censor))/2e-4, mission, sum) }); M <- nlevels(mission); b <- solve(top$h); b %*% (crossprod(s)*M/(M - 1)) %*% b }

res <- NULL; add <- function(fit, q, v) res <<- rbind(res, data.frame(fit = fit, quantity = q, value = sprintf("%.12g", v)))
start <- c(mean(x), mean(y), log(sd(x)), log(sd(y)), atanh(cor(x, y)))
for (censor in c(FALSE, TRUE)) { note <- if (censor) "beyond 60 nm" else "all placed"
  o <- best(each_t, list(c(start, log(3)), c(start, log(10))), censor); s <- unpack(o$par); v <- solve(o$h); r <- robust(o, each_t, censor); n <- paste("t", note)
  add(n, "centre_downwind", s$m[1]); add(n, "centre_right", s$m[2]); add(n, "scatter_11", s$v[1]); add(n, "scatter_22", s$v[2]); add(n, "scatter_12", s$c); add(n, "degrees_of_freedom", exp(o$par[6]))
  add(n, "log_likelihood", -o$value); add(n, "se_centre_downwind", sqrt(v[1,1])); add(n, "se_degrees_of_freedom", exp(o$par[6])*sqrt(v[6,6]))
  add(n, "mission_se_centre_downwind", sqrt(r[1,1])); add(n, "mission_se_degrees_of_freedom", exp(o$par[6])*sqrt(r[6,6]))
  narrow <- c(start[1:2], start[3:5] - c(.4, .4, 0))
  o <- best(each_mix, list(c(narrow, qlogis(.2), log(1.5)), c(narrow, qlogis(.5), 0), c(narrow, qlogis(.05), log(3))), censor); s <- unpack(o$par); w <- plogis(o$par[6]); k <- 1 + exp(o$par[7]); n <- paste("mixture", note)
  v <- solve(o$h); r <- robust(o, each_mix, censor)
  add(n, "centre_downwind", s$m[1]); add(n, "centre_right", s$m[2]); add(n, "scatter_11", s$v[1]); add(n, "scatter_22", s$v[2]); add(n, "scatter_12", s$c); add(n, "wide_share", w); add(n, "widening", k)
  add(n, "log_likelihood", -o$value); add(n, "se_wide_share", w*(1 - w)*sqrt(v[6,6])); add(n, "se_widening", (k - 1)*sqrt(v[7,7])); add(n, "mission_se_wide_share", w*(1 - w)*sqrt(r[6,6])); add(n, "mission_se_widening", (k - 1)*sqrt(r[7,7])) }

# Vuong's statistic with storms as units, corrected by AICc, t on storms - 1.
all_t <- each_t(best(each_t, list(c(start, log(3))), FALSE)$par, FALSE); all_mix <- each_mix(best(each_mix, list(c(narrow, qlogis(.2), log(1.5))), FALSE)$par, FALSE)
V <- cov(cbind(x, y))*(length(x) - 1)/length(x); s <- list(m = c(mean(x), mean(y)), v = c(V[1,1], V[2,2]), c = V[1,2]); all_normal <- -log(2*pi) - log(det2(s))/2 - square(s)/2
aicc <- function(l, k) -2*sum(l) + 2*k + 2*k*(k + 1)/(length(x) - k - 1); w <- c(t = aicc(all_t, 6), mixture = aicc(all_mix, 7), normal = aicc(all_normal, 5)); n <- "choice"
add(n, "aicc_t", w[["t"]]); add(n, "aicc_mixture", w[["mixture"]]); add(n, "aicc_normal", w[["normal"]]); add(n, "bic_t", -2*sum(all_t) + 6*log(length(x)))
for (o in c("mixture", "normal")) { g <- tapply(all_t - get(paste0("all_", sub("mixture", "mix", o))), mission, sum); M <- length(g)
  add(n, paste0("p_t_", o), 2*pt(-(w[[o]] - w[["t"]])/2/(sqrt(M)*sd(g)), M - 1)) }
write.csv(res, a[2], row.names = FALSE, quote = FALSE); cat(nrow(res), "figures; R", as.character(getRversion()), "\n")
