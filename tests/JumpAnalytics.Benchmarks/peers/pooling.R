# Logistic mixed model with bands, terrains and a random mission effect: lme4::glmer, Laplace. Needs lme4. One run: it takes from fifteen seconds to ten minutes, as the rows are counts of missions or single landings.
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))), "common.R"))
suppressPackageStartupMessages(library(lme4))
rows <- t(doubles("pooling.f64", file.size(file.path(folder, "pooling.f64")) / 40)) # mission, band, terrain, hits, landings
d <- data.frame(mission = factor(rows[, 1]), band = factor(rows[, 2]), terrain = factor(rows[, 3]), hits = rows[, 4], n = rows[, 5])
timed("R glmer", function() glmer(cbind(hits, n - hits) ~ band + terrain + (1 | mission), d, family = binomial), function(m) list(log_likelihood = as.numeric(logLik(m)) - sum(lchoose(d$n, d$hits))), 1)
