# What the R peers share: they get a folder and a number of runs, and print one line of JSON for each result: seconds of each run, and figures to compare.
arguments <- commandArgs(trailingOnly = TRUE)
folder <- arguments[1]
runs <- as.integer(arguments[2])
doubles <- function(name, columns) { f <- file.path(folder, name); matrix(readBin(f, "double", file.size(f) / 8), ncol = columns) }
timed <- function(label, work, figures, times = runs) {
  seconds <- numeric(times)
  for (i in seq_len(times)) { gc(FALSE); seconds[i] <- system.time(result <- work())[["elapsed"]] }
  values <- figures(result)
  cat(sprintf('{"label": "%s", "seconds": [%s], "figures": {%s}}\n', label, paste(format(seconds, digits = 6), collapse = ", "),
              paste(sprintf('"%s": %s', names(values), format(unlist(values), digits = 15)), collapse = ", ")))
}
