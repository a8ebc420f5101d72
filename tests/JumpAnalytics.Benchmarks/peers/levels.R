# Forecast's and jumper's part on each axis by REML: two fits of lme4::lmer. Needs lme4.
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))), "common.R"))
suppressPackageStartupMessages(library(lme4))
rows <- t(doubles("levels.f64", file.size(file.path(folder, "levels.f64")) / 24))
d <- data.frame(mission = factor(rows[, 1]), x = rows[, 2], y = rows[, 3])
timed("R, two lmer fits", function() list(lmer(x ~ 1 + (1 | mission), d), lmer(y ~ 1 + (1 | mission), d)), function(f) {
  v <- function(m) as.data.frame(VarCorr(m))$vcov
  list(between_downwind = v(f[[1]])[1], within_downwind = v(f[[1]])[2], between_right = v(f[[2]])[1], within_right = v(f[[2]])[2])
})
