namespace JumpAnalytics.Tests.Worlds;

/// <summary>What the library states of a world's season, held against what is true of the world.</summary>
internal static class WorldLooks
{
    /// <summary>Parts of the look, by name, and in every how many seasons: each counts into the shares.</summary>
    public static IReadOnlyList<(string Name, int Every, Action<World, WorldSeason, StatedShares> Look)> All { get; } =
    [
        ("rates", 1, Rates), ("seasons", 1, Seasons), ("radii", 1, Radii), ("shifts", 1, Shifts), ("spotters", 2, Spotters),
        ("backtests", 1, Backtests),
    ];

    /// <summary>Where spotters are looked at, which takes longest.</summary>
    private static readonly World[] _reviewed = [TwelveWorlds.Clean, TwelveWorlds.Thirty, TwelveWorlds.Skewed, TwelveWorlds.Tied,
        TwelveWorlds.Clustered, TwelveWorlds.Biased];

    /// <summary>A fifth of the usual resamples, for speed.</summary>
    private static AccuracyOptions Options { get; } = new() { Replicates = 400 };

    private static void Rates(World world, WorldSeason season, StatedShares shares)
    {
        var (landings, truth) = (season.Log.Landings, world.Truth);
        var table = RateTable.Of(landings, Options);
        var all = truth.Rate(Cell.All);
        shares.Count("rate: overall, 95 % interval", 0.95, Holds(table.Overall.Counted.Value?.Rate, all));
        var readings = RateReadings.Of(season.Log, landings, season.Log.Seasons, Options);
        shares.Count("rate: overall with rounding spread, 95 % interval", 0.95, Holds(readings.Spread?.Rate, all));
        shares.Count("rate: overall, range with what is not written down", 0.95, readings.Range?.Contains(all) == true);
        var byMission = landings.Where(l => l.Outcome != LandingOutcome.Undecided).GroupBy(l => l.Drop.Mission).ToList();
        shares.Count("rate: overall, 90 % interval", 0.9, Holds(ClusteredProportion.Of(
            [.. byMission.Select(m => m.Count(l => l.Outcome == LandingOutcome.Hit))],
            [.. byMission.Select(m => m.Count())], 0.9).Rate, all));
        var inner = table.Cells.Where(c => !c.IsMargin).ToList();
        shares.Count("rate: cells of 5 or more missions, counted", 0.95,
            inner.Where(c => c.Missions >= 5).SelectMany(c => Holds(c.Counted.Value?.Rate, truth.Rate(c.Cell))));
        shares.Count("rate: cells, pooled", 0.95,
            inner.SelectMany(c => Holds(c.Pooled?.Rate.Value, truth.Rate(c.Cell))));
        shares.Count("rate: no pooled model", 0, !table.Pooled.Success);
        if (world.Dangerous is { } dangerous)
        {
            var cell = new Cell(Options.Bands.Labels[dangerous.Band], World.Terrains[dangerous.Terrain].Name);
            shares.Count("rate: the dangerous cell, pooled", 0.95,
                inner.Where(c => c.Cell == cell).SelectMany(c => Holds(c.Pooled?.Rate.Value, truth.Rate(cell))));
        }
        var claim = BenchmarkClaim.Of(landings, Options with { Benchmark = all }).Rows[0];
        shares.Count("claim: exactly true, p below .05", 0.05, claim.PValue < 0.05);
        shares.Count("claim: exactly true, chance of it below .05", 0.05, claim.ProbabilityAtLeast < 0.05);
        shares.Count("claim: exactly true, chance of it above .95", 0.05, claim.ProbabilityAtLeast > 0.95);
    }

    private static void Seasons(World world, WorldSeason season, StatedShares shares)
    {
        var (landings, truth) = (season.Log.Landings, world.Truth);
        foreach (var group in SeasonGlance.Of(landings, Options).Seasons.GroupBy(g => g.Season == JumpLog.All))
        {
            foreach (var (percent, i) in MissSummary.Percents.Select((p, i) => (p, i)).Where(p => p.p != 85))
                shares.Count($"distance: of {percent} %, {(group.Key ? "all seasons" : "a season")}, 95 % interval", 0.95,
                    group.SelectMany(g => Holds(g.MissQuantiles[i].Value,
                        truth.Radius(Cell.All, percent / 100.0, group.Key ? null : g.Season))));
        }
        var trend = SeasonTrend.Of(landings, Options);
        if (trend.Drift?.Value is { } drift)
        {
            if (world.SeasonFactors.Count == 0) shares.Count("seasons: said to drift though steady", 0.05, drift.IsDrifting);
            else shares.Count("seasons: the drift found", 1, drift.IsDrifting);
            shares.Count("seasons: change a season by a line, 95 % interval", 0.95, Holds(drift.Slope,
                (truth.Rate(Cell.All, $"{2040 + world.Seasons}") - truth.Rate(Cell.All, "2041")) / (world.Seasons - 1)));
        }
        var steps = trend.Steps.Where(s => s.SameMix.Value?.Range is not null).ToList();
        shares.Count("change: same mix, 95 % interval", 0.95, steps.SelectMany(s =>
            Holds(s.SameMix.Value, truth.Rate(Cell.All, s.To) - truth.Rate(Cell.All, s.From))));
        if (world.SeasonFactors.Count == 0)
            shares.Count("change: same mix, beyond chance though steady", 0.05,
                steps.Select(s => !s.SameMix.Value!.Range!.Value.Contains(0)));
    }

    private static void Radii(World world, WorldSeason season, StatedShares shares)
    {
        var (truth, margins) = (world.Truth, RadiusMargins.Of(season.Log.Landings, Options));
        foreach (var (kind, rows) in new (string, IEnumerable<RadiusMargin>)[]
        {
            ("all", margins.Rows.Where(r => r.Cell.IsWhole)),
            ("terrains", margins.Rows.Where(r => r.Cell.IsOfTerrain)),
            ("cells, own", margins.Rows.Where(r => r.WindBand != Cell.Any && r.Terrain != Cell.Any && r.IsOwn)),
            ("cells, borrowed", margins.Rows.Where(r => r.WindBand != Cell.Any && r.Terrain != Cell.Any && !r.IsOwn)),
        })
        {
            foreach (var (share, i) in margins.Shares.Select((s, i) => (s, i)).Where(s => s.s != 0.85))
                shares.Count($"margin: upper limit of R{100 * share:0}, {kind}", margins.Confidence,
                    rows.Where(r => r.Radii[i].Success).Select(r => r.Radii[i].Value!.UpperLimit >= truth.Radius(r.Cell, share)));
        }
    }

    private static void Shifts(World world, WorldSeason season, StatedShares shares)
    {
        var (truth, shifts) = (world.Truth, ExitShifts.Of(season.Log.Landings, Options));
        if (shifts.WhyNot is not null) return;
        foreach (var rows in shifts.Rows.Where(r => r.Change.Value?.Range is not null)
            .GroupBy(r => r.Cell.IsWhole ? "all" : r.Cell.IsMargin ? "bands and terrains" : "cells"))
        {
            shares.Count($"shift: change of the rate, {rows.Key}, 95 % interval", 0.95, rows.SelectMany(r => Holds(r.Change.Value,
                truth.RateShifted(r.Cell, new(r.Downwind.Value, r.Right.Value)) - truth.Rate(r.Cell))));
            shares.Count($"shift: change stated without a width, {rows.Key}", 0,
                rows.Select(r => r.Change.Value!.Range is { } range && range.High <= range.Low));
        }
        var supported = shifts.Rows.Where(r => r.IsSupported).ToList();
        if (world.FirstSpotterBias == default && world.SkewShape is null)
            shares.Count("shift: any supported though there is no bias", 0.05, supported.Count > 0);
    }

    private static void Spotters(World world, WorldSeason season, StatedShares shares)
    {
        if (!_reviewed.Contains(world)) return;
        var review = SpotterReview.Of(season.Log, Options);
        var patterns = review.Patterns;
        shares.Count("spotter: mean miss of the base, 95 % ellipse", 0.95,
            patterns.Base.Downwind.Value is { } mean ? [mean.Holds(world.Truth.MeanMiss(Cell.All))] : Array.Empty<bool>());
        shares.Count("spotter: mean miss of each, 95 % ellipse", 0.95, patterns.Spotters.Where(s => s.Downwind.Success).Select(s =>
        {
            var (downwind, right) = world.BiasOf(s.Spotter == "P1" ? 0 : 1);
            return s.Downwind.Value!.Holds(new(0.9144 * downwind, 0.9144 * right));
        }));
        var charts = review.Charts.Spotters.SelectMany(s => s.Made.Select(c => (s.Name, Chart: c))).ToList();
        var quiet = world is { FirstSpotterBias: (0, 0), SeasonFactors.Count: 0 };
        var sound = charts.Where(c => quiet || c.Name != "spotter P1").ToList();
        if (world.SeasonFactors.Count == 0)
        {
            if (charts.Count > 0)
                shares.Count("spotter: charts of sound ones that signal", review.Charts.ExpectedFalse / charts.Count,
                    sound.Select(c => c.Chart.Signals.Count > 0));
            var names = Enumerable.Range(quiet ? 1 : 2, world.Spotters - (quiet ? 0 : 1)).Select(n => $"P{n}").ToList();
            shares.Count("spotter: any sound one asked to look next", 0.05, patterns.Points.Any(p =>
                names.Any(n => p.StartsWith($"{n} ", StringComparison.Ordinal)) && p.Contains("ook next", StringComparison.Ordinal)));
            var screen = string.Join(" ", patterns.Reading, review.Comparison.Sentence, review.Charts.Reading);
            shares.Count("spotter: any sound one named on the first screen", 0.05,
                names.Any(n => screen.Contains(n, StringComparison.Ordinal)));
            shares.Count("spotter: any sound one with a mean miss beyond chance (Holm)", 0.05,
                patterns.Spotters.Any(s => s.AdjustedP < 0.05 && (quiet || s.Spotter != "P1")));
            shares.Count("spotter: any sound one off in like conditions (Holm)", 0.05,
                review.Comparison.Spotters.Any(s => s.PAdjusted < 0.05 && (quiet || s.Spotter != "P1")));
        }
        if (world.FirstSpotterBias != default)
            shares.Count("spotter: the planted one found by the mean miss (Holm)", 1,
                patterns.Spotters.Where(s => s.Spotter == "P1").Select(s => s.AdjustedP < 0.05));
    }

    private static void Backtests(World world, WorldSeason season, StatedShares shares)
    {
        var landings = season.Log.Landings;
        if (world.Seasons < 2) return;
        var rates = ChanceForecasts.Of(landings, BacktestScheme.EarlierSeasons, Options).Reliability(RateForecaster.Pooled, Options);
        if (rates.Value?.Band.Value is { } band)
            shares.Count("backtest: stated and came differ beyond chance", 0.05, band.ChanceIfRight < 0.05);
        var trials = MarginBacktest.Of(landings, Options).Trials.Where(t => t.Inside.Value?.Rate.Range is not null).ToList();
        shares.Count("backtest: a radius held less or more, beyond chance", 0.05,
            trials.Select(t => !t.Inside.Value!.Rate.Range!.Value.Contains(t.Nominal)));
        shares.Count("backtest: an upper limit held less, beyond chance", 0.05,
            trials.Where(t => t.InsideLimit.Value?.Rate.Range is not null)
                .Select(t => t.InsideLimit.Value!.Rate.Range!.Value.High < t.Nominal));
    }

    private static IEnumerable<bool> Holds(Estimate? estimate, double truth) =>
        estimate?.Range is { } range ? [range.Contains(truth)] : [];
}
