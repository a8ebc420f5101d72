# Run lengths by R 4.2.2, spc 0.6.7. Writes spc.csv beside arl.csv.
library(spc)
rows <- list()
add <- function(kind, a, b, start, shift, points, value) rows[[length(rows) + 1]] <<- data.frame(kind, weight = a, limit = b, start, shift, points, value)
for (l in c(.05, .1, .25)) for (d in c(0, .5, 1, 2)) {
  add("ewma one", l, 2.7, 0, d, NA, xewma.arl(l, 2.7, d, zr = 0, sided = "one", limits = "fix", r = 100))
  sf <- xewma.sf(l, 2.7, d, 200, sided = "two", limits = "fix", r = 100)
  for (n in c(1, 2, 5, 20, 60, 200)) add("ewma two within", l, 2.7, 0, d, n, 1 - sf[n])
}
for (k in c(.25, .5, 1)) for (d in c(0, .5, 1, 2)) {
  add("cusum one", k, 4, 0, d, NA, xcusum.arl(k, 4, d, sided = "one", r = 100))
  add("cusum one", k, 4, 2, d, NA, xcusum.arl(k, 4, d, hs = 2, sided = "one", r = 100))
  add("cusum two", k, 4, 2, d, NA, xcusum.arl(k, 4, d, hs = 2, sided = "two", r = 100))
  sf <- xcusum.sf(k, 4, d, 200, sided = "one", r = 100)
  for (n in c(1, 2, 5, 20, 60, 200)) add("cusum one within", k, 4, 0, d, n, 1 - sf[n])
}
for (l in c(.05, .1, .3)) for (a in c(100, 370)) {
  add("ewma limit", l, NA, NA, 0, a, xewma.crit(l, a, sided = "two", limits = "fix", r = 100))
  add("mewma limit", l, NA, NA, 0, a, mewma.crit(l, a, p = 2, r = 60))
}
for (k in c(.25, .5, .75, 1)) add("cusum two limit", k, NA, NA, 0, 370, xcusum.crit(k, 370, sided = "two", r = 100))
out <- do.call(rbind, rows)
out$value <- sprintf("%.14g", out$value)
write.csv(out, "spc.csv", row.names = FALSE, quote = FALSE)
