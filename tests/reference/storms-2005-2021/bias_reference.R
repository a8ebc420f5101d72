# Mean miss along and across the forecast with its between-mission interval (ratio of totals, t on missions - 1), base R.
# usage: Rscript bias_reference.R FOLDER OUT.csv ; nautical miles
a <- commandArgs(TRUE)
d <- merge(read.csv(file.path(a[1], "drops.csv")), read.csv(file.path(a[1], "landings.csv")), by = "drop_id")
fl <- sqrt(d$forecast_east_nm^2 + d$forecast_north_nm^2); ue <- d$forecast_east_nm/fl; un <- d$forecast_north_nm/fl
d$downwind <- d$landing_east_nm*ue + d$landing_north_nm*un; d$right <- d$landing_east_nm*un - d$landing_north_nm*ue
res <- NULL
one <- function(season, x) for (v in c("downwind", "right")) {
  y <- as.vector(tapply(x[[v]], as.character(x$mission), sum)); k <- as.vector(tapply(x[[v]], as.character(x$mission), length))
  M <- length(k); r <- sum(y)/sum(k); se <- sqrt(M/(M-1)*sum((y - r*k)^2))/sum(k); h <- qt(.975, M-1)*se
  res <<- rbind(res, data.frame(season = season, axis = v, missions = M, mean = sprintf("%.12g", r), low = sprintf("%.12g", r-h), high = sprintf("%.12g", r+h)))
}
for (s in sort(unique(d$season))) one(s, d[d$season == s, ])
one("all", d)
write.csv(res, a[2], row.names = FALSE, quote = FALSE)
