# Reads, checks and reduces a log to counts and rates by cell. Needs data.table.
source(file.path(dirname(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))), "common.R"))
suppressPackageStartupMessages(library(data.table))
work <- function() {
  drops <- fread(file.path(folder, "log", "drops.csv"), colClasses = "character", na.strings = c("", "NA"))
  landings <- fread(file.path(folder, "log", "landings.csv"), colClasses = "character", na.strings = c("", "NA"))
  # what cannot be a number becomes missing, as in a check of one's own
  number <- function(x) suppressWarnings(as.numeric(x))
  drops[, `:=`(radius = number(target_radius_m), wind = number(wind_speed_mps), drift = number(forecast_drift_m), to = number(forecast_to_deg),
               when = as.POSIXct(time, format = "%Y-%m-%dT%H:%M", tz = "UTC"))]
  good <- drops[!is.na(drop_id) & !is.na(mission) & !is.na(terrain) & !is.na(when) & radius > 0 & wind >= 0 & drift >= 0 & to >= 0 & to <= 360]
  good <- unique(good, by = "drop_id")
  landings[, `:=`(distance = number(landing_distance_m), bearing = number(landing_bearing_deg))]
  fine <- landings[!is.na(drop_id) & distance >= 0 & bearing >= 0 & bearing <= 360]
  both <- good[fine, on = "drop_id", nomatch = NULL]
  both[, `:=`(hit = distance <= radius * (1 + 1e-9), band = findInterval(wind, c(0, 2, 4, 6)))]
  cells <- both[, .(n = .N, hits = sum(hit)), by = .(band, terrain, mission)][, {
    N <- sum(n); p <- sum(hits) / N; m <- .N
    .(landings = N, hits = sum(hits), missions = m, se = sqrt(m / (m - 1) * sum((hits - p * n)^2)) / N)
  }, by = .(band, terrain)]
  cells
}
timed("R data.table", work, function(c) list(landings = sum(c$landings), hits = sum(c$hits), cells = nrow(c), se = sum(c$se)))
