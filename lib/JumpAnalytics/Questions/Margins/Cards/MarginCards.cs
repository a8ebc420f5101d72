namespace JumpAnalytics;

/// <summary>The cards of a report: one for each base on record.</summary>
internal static class MarginCards
{
    private const string Unnamed = "base not recorded";

    public static IReadOnlyList<MarginCard> Of(SpottingMargins margins)
    {
        var files = new CardFiles();
        var bases = margins.Landings.Select(l => l.Drop.Base).Distinct().Order(StringComparer.Ordinal).ToList();
        return [.. bases.Select(b => PageOf(b ?? Unnamed, files.For(b ?? Unnamed), bases.Count == 1 ? margins : margins.OfBase(b)))];
    }

    private static MarginCard PageOf(string place, string file, SpottingMargins margins)
    {
        var (radii, unit, speed) = (margins.Radii, margins.Options.Units.Distance, margins.Options.Bands.Unit.Suffix);
        var (half, most) = (0, Math.Max(0, radii.Shares.ToList().FindIndex(s => s >= 0.9)));
        string[] headings =
        [
            $"wind ({speed})", "terrain", "missions / landings", $"{Share(radii.Shares[half])} within ({unit.Suffix})",
            $"{Share(radii.Shares[most])} within ({unit.Suffix})", $"upper limit ({unit.Suffix})",
            "rests on", "landing rate", $"exit shift along / right ({unit.Suffix})",
        ];
        // The whole first, then terrains and bands, then cells; most missions first among cells, so that those left out are the thinnest.
        var rows = radii.Rows.Reverse().OrderBy(r => r.Cell.IsWhole ? 0 : r.Cell.IsOfBand ? 1 : r.Cell.IsOfTerrain ? 2 : 3)
            .ThenByDescending(r => r.Missions).Take(MarginCard.MostRows).ToHashSet();
        var shown = radii.Rows.Where(rows.Contains).Concat(radii.Rows.Where(r => !rows.Contains(r))).ToList();
        return new MarginCard(place, file,
            $"From {JumpLog.Words(margins.Seasons)} of {margins.Log.Name}: {Rounding.Count(radii.Overall.Missions, "mission")}, "
                + $"{Rounding.Count(radii.Overall.Landings, "landing")}."
                + (radii.RoundingSentence is { } rounded ? $" {rounded}" : "")
                + (margins.Log.Notice is { } notice ? $" {notice}" : ""),
            headings, [.. shown.Select(Row)],
            "How far from the spot past landings came down, as they were steered. Upper limit: "
                + $"with {Rounding.Percent(margins.Asked.UpperConfidence)} confidence no more than this holds {Share(radii.Shares[most])}. "
                + "Own landings: from the landings of that line; borrowed: drawn from other cells too; from other conditions: borrowed, "
                + $"with fewer than {RadiusMargin.FewestMissions} missions of its own, for which no rate and no shift is given. "
                + "A borrowed radius is not taken below that of calmer wind on the same ground. Landing "
                + $"rate inside the target radius with its {Rounding.Percent(margins.Options.Confidence)} interval between missions. "
                + "Exit shift: how far moving every exit would have centred the misses, drawn towards none by the evidence; "
                + "none: the evidence leaves no shift among what may be true. Seed " + $"{margins.Options.Seed}.",
            [.. Points(margins)], [.. margins.Cautions.Points]);

        string[] Row(RadiusMargin r) =>
        [
            r.WindBand, r.Terrain, $"{r.Missions} / {r.Landings}", Length(r.Radii[half].Value?.Radius), Length(r.Radii[most].Value?.Radius),
            Length(r.Radii[most].Value?.UpperLimit),
            r.RestsOn,
            RateOf(margins, r).Value is { } counted && counted.Missions >= RadiusMargin.FewestMissions
                ? TableView.Show(counted.Rate, CellFormat.ShareRange) : "–",
            ShiftOf(margins, r),
        ];
        string Length(double? metres) => metres is { } m ? Rounding.Fixed(unit.FromSi(m), unit.FromSi(m) < 10 ? 1 : 0) : "–";
    }

    private static Fit<ClusteredProportion> RateOf(SpottingMargins margins, RadiusMargin r) =>
        MissionSample.Of(margins.Landings.Where(l => r.Cell.Holds(l.Drop, margins.Options.Bands))).CountedRate(margins.Options.Confidence);

    private static string ShiftOf(SpottingMargins margins, RadiusMargin r)
    {
        if (margins.Shifts.Cell(r.Cell) is not { } shift || shift.Missions < RadiusMargin.FewestMissions) return "–";
        if (!shift.IsSupported) return "none";
        var unit = margins.Options.Units.Distance;
        return $"{Signed(shift.Vector.Along)} / {Signed(shift.Vector.Across)}";

        string Signed(double metres) => Rounding.Fixed(unit.FromSi(metres), 0) is var text && metres > 0 && text != "0" ? "+" + text : text;
    }

    private static IEnumerable<string> Points(SpottingMargins margins)
    {
        yield return Opening(margins.Sticks.Reading);
        yield return Opening(margins.Ageing.Reading);
        yield return margins.EarlierMargins.Sentence;
        foreach (var r in margins.Radii.Rows.Where(r => r.SmallerThan is not null))
            yield return $"{r.Cell.Words(margins.Options.Bands)}: {r.Note(margins.Options.Bands)}.";
    }

    /// <summary>The first sentence of a reading; the report has the rest.</summary>
    private static string Opening(string reading) =>
        reading.IndexOf("). ", StringComparison.Ordinal) is var end and >= 0 ? reading[..(end + 2)] : reading;

    private static string Share(double share) => TableView.Show(share, CellFormat.Share);
}
