using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Degrees and decimal minutes read as decimal degrees (no fraction at or above .60), and coordinates rounded to a coarse grid.</summary>
internal sealed class CoordinateFormCheck : IRecordCheck
{
    private const int FewestSpots = 8;

    /// <summary>Metres; a coarser grid than this is told.</summary>
    private const double FineEnough = 15;

    private const double MetresPerDegree = 111_132;

    private static readonly (double Degrees, string Name)[] _grids =
    [
        (1, "a degree"), (0.5, "half a degree"), (0.1, "0.1 degree"), (1 / 60.0, "a minute"), (0.01, "0.01 degree"),
        (1 / 600.0, "0.1 minute"), (0.001, "0.001 degree"), (1 / 6000.0, "0.01 minute"),
    ];

    public string Name => "form of coordinates";

    public CheckOutcome Look(CheckedLog log)
    {
        var groups = log.Groups.Select(g => (g.Group, Spots: g.Drops.Where(d => d.Spot is not null).DistinctBy(d => (d.Mission, d.Spot)).ToList(), Rows: g))
            .Where(g => g.Spots.Count >= FewestSpots).ToList();
        var (flags, told) = (new List<RecordFlag>(), new List<DropGroup>());
        foreach (var (group, spots, rows) in groups)
        {
            if (told.Exists(t => rows.Set.IsSubsetOf(t.Set))) continue;
            var found = new[] { Minutes(log, group, spots, groups.Count), Rounded(log, group, spots) }.OfType<RecordFlag>().ToList();
            if (found.Count > 0) told.Add(rows);
            flags.AddRange(found);
        }
        return new CheckOutcome(Name, log.Log.Drops.Count(d => d.Spot is not null), flags);
    }

    private RecordFlag? Minutes(CheckedLog log, RecordGroup group, IReadOnlyList<Drop> spots, int groups)
    {
        // A base's spots may well all lie in the lower part of one degree: only what lies between spots on both sides of a gap counts.
        double p = 1;
        foreach (var axis in new Func<GeoPosition, double>[] { s => Math.Abs(s.Latitude), s => Math.Abs(s.Longitude) })
        {
            var values = spots.Select(d => axis(d.Spot!.Value)).ToList();
            if (values.Exists(v => Fraction(v) >= 0.6)) return null;
            var (least, most) = (values.Min(), values.Max());
            if (Math.Floor(most) > Math.Floor(least)) p *= Math.Pow(1 - 0.4 * (Math.Floor(most) - Math.Floor(least)) / (most - least), values.Count - 2);
        }
        var allowed = log.Allowing(p, groups);
        if (!log.IsStrong(allowed)) return null;
        var km = spots.Select(d => PositionCheck.Distance(d.Spot!.Value, AsMinutes(d.Spot!.Value)) / 1000).Median();
        return new RecordFlag
        {
            Check = Name, Group = group, Rows = [.. spots.Select(d => d.Source)],
            Found = $"none of {Rounding.Count(spots.Count, "spot")} has a fraction of a degree at or above .60, though spots lie on both sides: as if degrees and decimal minutes were read as decimal degrees.",
            Harm = new FlagHarm(km, "km", spots.Count, $"Spots would lie {Rounding.Fixed(km, 0)} km off in the median (n = {Rounding.Count(spots.Count, "spot")}), and misses recorded by position would come out at 0.6 of their length."),
            PValue = allowed, Rule = "binomial test of the gap from .60 to the next degree, positions spread evenly",
            Try = "write 44 30.50 N with a blank between degrees and minutes, or turn it into 44.5083",
        };
    }

    private static double Fraction(double degrees) => Math.Round(degrees - Math.Floor(degrees), 9);

    private static GeoPosition AsMinutes(GeoPosition p)
    {
        return new GeoPosition(Turned(p.Latitude), Turned(p.Longitude));

        static double Turned(double degrees) => Math.Sign(degrees) * (Math.Floor(Math.Abs(degrees)) + Math.Min(Fraction(Math.Abs(degrees)) / 0.6, 1 - 1e-9));
    }

    private RecordFlag? Rounded(CheckedLog log, RecordGroup group, IReadOnlyList<Drop> spots)
    {
        var (step, name) = _grids.FirstOrDefault(g => spots.Count(d => IsOn(d.Spot!.Value, g.Degrees)) >= 0.9 * spots.Count);
        if (name is null || step * MetresPerDegree < FineEnough) return null;
        var shrink = Math.Cos(double.DegreesToRadians(spots.Select(d => d.Spot!.Value.Latitude).Median()));
        var error = step * MetresPerDegree * Math.Sqrt((1 + shrink * shrink) / 12);
        return new RecordFlag
        {
            Check = Name, Group = group, Rows = [.. spots.Select(d => d.Source)],
            Found = $"{Rounding.Count(spots.Count(d => IsOn(d.Spot!.Value, step)))} of {Rounding.Count(spots.Count, "spot")} are rounded to {name}, {log.Length(step * MetresPerDegree)} from north to south.",
            Harm = new FlagHarm(log.Unit.FromSi(error), log.Unit.Suffix, spots.Count, $"Rounding alone puts a spot {log.Length(error)} off (root mean square, n = {Rounding.Count(spots.Count, "spot")}), and with it every miss recorded by position."),
            Rule = "nine tenths of the positions on one grid",
            Try = "take the digits the instrument gave: a miss needs 0.001 minute, or distance and bearing from the spot",
        };
    }

    private static bool IsOn(GeoPosition p, double step) => WrittenNumber.IsMultiple(p.Latitude, step) && WrittenNumber.IsMultiple(p.Longitude, step);
}
