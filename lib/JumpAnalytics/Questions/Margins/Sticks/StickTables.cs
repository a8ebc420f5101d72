namespace JumpAnalytics;

/// <summary>The tables of a <see cref="StickMargins"/>.</summary>
internal static class StickTables
{
    public static IReadOnlyList<TableView> Of(StickMargins s) => [Sizes(s), Calibration(s), Model(s), Largest(s)];

    private static TableView Sizes(StickMargins s)
    {
        var distance = s.Options.Units.Distance;
        return new TableOf<StickRow>("stick-sizes", "Chance that a stick comes down inside", s.Rows,
            !s.Model.Success ? $"Not told: {s.Model.Reason}."
                : $"{Rounding.Count(s.Missions, "mission")}, {Rounding.Count(s.Passes)} passes, {Rounding.Count(s.Landings, "landing")}. "
                    + $"Target radius {Rounding.Fixed(distance.FromSi(s.TargetRadius), 0)} {distance.Suffix}"
                    + $"{(s.Settings.TargetRadius is null ? " (median of the record)" : ", the reader's")}. "
                    + $"Intervals at {Rounding.Percent(s.Options.Confidence)}, missions resampled. "
                    + "Winds, terrains and ages as in the record.")
        {
            { Columns.RunOf, r => StickReport.Name(r.Run) },
            { Columns.Jumpers, r => r.Jumpers },
            { Columns.AllInside, r => r.All },
            { Columns.OneOutside, r => r.AllButOne },
            { Columns.ExpectedOutside, r => r.ExpectedOutside },
            { Columns.Note, r => r.Jumpers > s.LargestOnRecord ? "larger than any on record" : null },
        };
    }

    private static TableView Calibration(StickMargins s) =>
        new TableOf<StickCalibration>("stick-calibration", "Sticks as they came down, beside the model", s.Calibration,
            "Each stick at its own target radius, run and spacing. "
            + "The same records made the model, so this shows whether its shape fits, not how well it foretells.")
        {
            { Columns.Jumpers, c => c.Jumpers },
            { Columns.Missions, c => c.Missions },
            { Columns.Sticks, c => c.Sticks },
            { Columns.SticksInside, c => c.Inside },
            { Columns.ObservedInside, c => c.Observed },
            { Columns.ModelledInside, c => c.Modelled },
            { Columns.IndependentInside, c => c.Independent },
            {
                Columns.Note, c => c.Observed.Range is not { } r ? c.Observed.WhyNoRange
                    : r.Contains(c.Modelled) ? null : "the model lies outside the interval"
            },
        };

    private static TableView Model(StickMargins s)
    {
        var unit = s.Options.Units.Distance;
        return new TableOf<(string Parameter, string Unit, double Value)>("stick-model", "The model of a pass", Parameters(),
            "Miss = mean + shared + own + what is left of the exit's offset. "
            + $"n: {Rounding.Count(s.Missions, "mission")}, {Rounding.Count(s.Landings, "landing")}. "
            + "The uncertainty of these numbers is in the intervals of the chances.")
        {
            { Columns.Parameter, p => p.Parameter },
            { Columns.ParameterUnit, p => p.Unit },
            { Columns.ParameterValue, p => p.Value },
        };

        IEnumerable<(string, string, double)> Parameters()
        {
            if (s.Model.Value is { } m)
            {
                yield return ("mean miss, + long", unit.Suffix, unit.FromSi(m.Bias.Along));
                yield return ("mean miss, + right", unit.Suffix, unit.FromSi(m.Bias.Across));
                yield return ("shared by a pass, sd along the drift", unit.Suffix, unit.FromSi(m.SharedDownwind));
                yield return ("shared by a pass, sd across", unit.Suffix, unit.FromSi(m.SharedRight));
                yield return ("own, sd along the drift", unit.Suffix, unit.FromSi(m.OwnDownwind));
                yield return ("own, sd across", unit.Suffix, unit.FromSi(m.OwnRight));
                yield return ("share of wide own parts", "", m.WideShare);
                yield return ("how many times as wide", "", m.Widening);
            }
            if (s.PassThrough.Value is { } left) yield return ("share of an exit's offset left", "", left.Value);
            if (s.ExitGap is { } gap) yield return ("way along the run between exits", unit.Suffix, unit.FromSi(gap));
        }
    }

    private static TableView Largest(StickMargins s) => new TableOf<LargestStick>(
        "largest-stick", "Largest stick for the probability wanted", s.Largest,
        s.Settings.Wanted is null ? "No probability was asked for; there is no default."
            : "The probability wanted is the reader's number, not a rule.")
    {
        { Columns.RunOf, l => StickReport.Name(l.Run) },
        { Columns.WantedAll, l => l.Wanted },
        { Columns.LargestJumpers, l => l.Jumpers },
        { Columns.LargestLow, l => l.Low },
        { Columns.LargestHigh, l => l.High },
        {
            Columns.Note, l => l.Jumpers == 0 ? "a single jumper falls short of it"
                : l.Jumpers == s.Settings.Largest ? "and perhaps more: no larger stick was tried" : null
        },
    };
}
