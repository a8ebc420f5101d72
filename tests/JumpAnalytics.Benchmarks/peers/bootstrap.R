# 10,000 resamples of missions with boot: rates and R90 of twelve cells. Needs boot.
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))), "common.R"))
suppressPackageStartupMessages(library(boot))
rows <- t(doubles("bootstrap.f64", length(readBin(file.path(folder, "bootstrap.f64"), "double", 1e8)) / 4))
mission <- rows[, 1] + 1; cell <- rows[, 2] + 1; distance <- rows[, 3]; hit <- rows[, 4]
cells <- max(cell)
of <- lapply(seq_len(cells), function(c) { i <- which(cell == c); i[order(distance[i])] })
statistic <- function(missions, drawn) {
  times <- tabulate(drawn, length(missions))
  out <- numeric(2 * cells)
  for (c in seq_len(cells)) {
    w <- times[mission[of[[c]]]]
    n <- sum(w)
    out[c] <- sum(w * hit[of[[c]]]) / n
    out[cells + c] <- quantile(rep(distance[of[[c]]], w), 0.9, type = 8, names = FALSE)
  }
  out
}
set.seed(1)
once <- max(1, min(runs, 1))
timed("R boot", function() boot(seq_len(max(mission)), statistic, R = 10000), function(b) {
  s <- apply(b$t, 2, sd)
  setNames(as.list(s), c(paste0("rate_sd_", seq_len(cells) - 1), paste0("r90_sd_", seq_len(cells) - 1)))
}, once)
