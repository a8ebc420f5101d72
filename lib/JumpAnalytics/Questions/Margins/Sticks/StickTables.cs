namespace JumpAnalytics;

/// <summary>The tables of a <see cref="StickMargins"/>.</summary>
internal static class StickTables
{
    public static IReadOnlyList<TableView> Of(StickMargins s) => [Sizes(s), Calibration(s), Model(s), Largest(s)];

    private static TableView Sizes(StickMargins s)
    {
        var distance = s.Options.Units.Distance;
        return new TableView("stick-sizes", "Chance that a stick comes down inside",
            [Columns.RunOf, Columns.Jumpers, Columns.AllInside, Columns.OneOutside, Columns.ExpectedOutside, Columns.Note],
            [.. s.Rows.Select(r => new object?[] { StickReport.Name(r.Run), r.Jumpers, r.All, r.AllButOne, r.ExpectedOutside, r.Jumpers > s.LargestOnRecord ? "larger than any on record" : null })],
            s.Model.Success
                ? $"{Rounding.Count(s.Missions, "mission")}, {Rounding.Count(s.Passes)} passes, {Rounding.Count(s.Landings, "landing")}. Target radius {Rounding.Fixed(distance.FromSi(s.TargetRadius), 0)} {distance.Suffix}{(s.Settings.TargetRadius is null ? " (median of the record)" : ", the reader's")}. Intervals at {Rounding.Percent(s.Options.Confidence)}, missions resampled. Winds, terrains and ages as in the record."
                : $"Not told: {s.Model.Reason}.");
    }

    private static TableView Calibration(StickMargins s) => new("stick-calibration", "Sticks as they came down, beside the model",
        [Columns.Jumpers, Columns.Missions, Columns.Sticks, Columns.SticksInside, Columns.ObservedInside, Columns.ModelledInside, Columns.IndependentInside, Columns.Note],
        [.. s.Calibration.Select(c => new object?[]
        {
            c.Jumpers, c.Missions, c.Sticks, c.Inside, c.Observed, c.Modelled, c.Independent,
            c.Observed.Range is { } r ? r.Contains(c.Modelled) ? null : "the model lies outside the interval" : c.Observed.WhyNoRange,
        })],
        "Each stick at its own target radius, run and spacing. The same records made the model, so this shows whether its shape fits, not how well it foretells.");

    private static TableView Model(StickMargins s)
    {
        var distance = s.Options.Units.Distance;
        List<object?[]> rows = s.Model.Value is not { } m ? [] :
        [
            ["mean miss, + long", distance.Suffix, distance.FromSi(m.Bias.Along)],
            ["mean miss, + right", distance.Suffix, distance.FromSi(m.Bias.Across)],
            ["shared by a pass, sd along the drift", distance.Suffix, distance.FromSi(m.SharedDownwind)],
            ["shared by a pass, sd across", distance.Suffix, distance.FromSi(m.SharedRight)],
            ["own, sd along the drift", distance.Suffix, distance.FromSi(m.OwnDownwind)],
            ["own, sd across", distance.Suffix, distance.FromSi(m.OwnRight)],
            ["share of wide own parts", "", m.WideShare],
            ["how many times as wide", "", m.Widening],
        ];
        if (s.PassThrough.Value is { } left) rows.Add(["share of an exit's offset left", "", left.Value]);
        if (s.ExitGap is { } gap) rows.Add(["way along the run between exits", distance.Suffix, distance.FromSi(gap)]);
        return new TableView("stick-model", "The model of a pass", [Columns.Parameter, Columns.ParameterUnit, Columns.ParameterValue], rows,
            $"Miss = mean + shared + own + what is left of the exit's offset. n: {Rounding.Count(s.Missions, "mission")}, {Rounding.Count(s.Landings, "landing")}. The uncertainty of these numbers is in the intervals of the chances.");
    }

    private static TableView Largest(StickMargins s) => new("largest-stick", "Largest stick for the probability wanted",
        [Columns.RunOf, Columns.WantedAll, Columns.LargestJumpers, Columns.LargestLow, Columns.LargestHigh, Columns.Note],
        [.. s.Largest.Select(l => new object?[]
        {
            StickReport.Name(l.Run), l.Wanted, l.Jumpers, l.Low, l.High,
            l.Jumpers == 0 ? "a single jumper falls short of it" : l.Jumpers == s.Settings.Largest ? "and perhaps more: no larger stick was tried" : null,
        })],
        s.Settings.Wanted is null ? "No probability was asked for; there is no default." : "The probability wanted is the reader's number, not a rule.");
}
