# The bivariate t with five degrees of freedom on a million points: MASS::cov.trob. Needs MASS.
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))), "common.R"))
suppressPackageStartupMessages(library(MASS))
x <- t(doubles("t.f64", file.size(file.path(folder, "t.f64")) / 16))
timed("R cov.trob", function() cov.trob(x, nu = 5, tol = 1e-8, maxit = 200), function(f) list(center1 = f$center[1], center2 = f$center[2], scatter11 = f$cov[1, 1], scatter22 = f$cov[2, 2], scatter12 = f$cov[1, 2]))
