using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// Degrees and decimal minutes read as decimal degrees (no fraction at or above .60), and coordinates rounded to a coarse grid.
/// </summary>
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

    private readonly record struct PlacedRow(GeoPosition Position, RowSource Source);

    public CheckOutcome Look(CheckedLog log)
    {
        var landed = log.Log.Landings.Where(l => WrittenPlaces.IsPosition(log, l)).ToLookup(l => l.Drop.Id, StringComparer.Ordinal);
        var (flags, told, toldLandings) = (new List<RecordFlag>(), new List<DropGroup>(), new List<DropGroup>());
        foreach (var group in log.Groups)
        {
            var spots = group.Drops.Where(d => d.Spot is not null).DistinctBy(d => (d.Mission, d.Spot)).ToList();
            if (spots.Count >= FewestSpots && !told.Exists(t => group.Set.IsSubsetOf(t.Set)))
            {
                var found = new[] { Minutes(log, group.Group, spots), Rounded(log, group.Group, "spot",
                    [.. spots.Select(d => new PlacedRow(d.Spot!.Value, d.Source))]) }.OfType<RecordFlag>().ToList();
                if (found.Count > 0) told.Add(group);
                flags.AddRange(found);
            }
            if (toldLandings.Exists(t => group.Set.IsSubsetOf(t.Set))) continue;
            var places = group.Drops.SelectMany(d => landed[d.Id])
                .Select(l => new PlacedRow(WrittenPlaces.PositionOf(l), l.Source)).ToList();
            if (places.Count < FewestSpots || Rounded(log, group.Group, "landing", places) is not { } landings) continue;
            toldLandings.Add(group);
            flags.Add(landings);
        }
        return new CheckOutcome(Name, log.Log.Drops.Count(d => d.Spot is not null) + landed.Sum(l => l.Count()), flags);
    }

    private RecordFlag? Minutes(CheckedLog log, RecordGroup group, IReadOnlyList<Drop> spots)
    {
        // A base's spots may well all lie in the lower part of one degree: only what lies between spots on both sides of a gap counts.
        double p = 1;
        foreach (var axis in new Func<GeoPosition, double>[] { s => Math.Abs(s.Latitude), s => Math.Abs(s.Longitude) })
        {
            var values = spots.Select(d => axis(d.Spot!.Value)).ToList();
            if (values.Exists(v => Fraction(v) >= 0.6)) return null;
            var (least, most) = (values.Min(), values.Max());
            if (Math.Floor(most) > Math.Floor(least))
                p *= Math.Pow(1 - 0.4 * (Math.Floor(most) - Math.Floor(least)) / (most - least), values.Count - 2);
        }
        var allowed = log.Allowing(p, log.Groups.Count);
        if (!log.IsStrong(allowed)) return null;
        var km = spots.Select(d => PositionCheck.Distance(d.Spot!.Value, AsMinutes(d.Spot!.Value)) / 1000).Median();
        return new RecordFlag
        {
            Check = Name, Group = group, Rows = [.. spots.Select(d => d.Source)],
            Found = $"none of {Rounding.Count(spots.Count, "spot")} has a fraction of a degree at or above .60, though spots lie on both "
                + "sides: as if degrees and decimal minutes were read as decimal degrees.",
            Harm = new FlagHarm(km, "km", spots.Count, $"Spots would lie {Rounding.Fixed(km, 0)} km off in the median (n = "
                + $"{Rounding.Count(spots.Count, "spot")}), and misses recorded by position would come out at 0.6 of their length."),
            PValue = allowed, Rule = "binomial test of the gap from .60 to the next degree, positions spread evenly",
            Try = "write 44 30.50 N with a blank between degrees and minutes, or turn it into 44.5083",
        };
    }

    private static double Fraction(double degrees) => Math.Round(degrees - Math.Floor(degrees), 9);

    private static GeoPosition AsMinutes(GeoPosition p)
    {
        return new GeoPosition(Turned(p.Latitude), Turned(p.Longitude));

        static double Turned(double degrees) =>
            Math.Sign(degrees) * (Math.Floor(Math.Abs(degrees)) + Math.Min(Fraction(Math.Abs(degrees)) / 0.6, 1 - 1e-9));
    }

    private RecordFlag? Rounded(CheckedLog log, RecordGroup group, string noun, IReadOnlyList<PlacedRow> places)
    {
        var (step, name) = _grids.FirstOrDefault(g => places.Count(p => IsOn(p.Position, g.Degrees)) >= 0.9 * places.Count);
        if (name is null || step * MetresPerDegree < FineEnough) return null;
        var shrink = Math.Cos(double.DegreesToRadians(places.Select(p => p.Position.Latitude).Median()));
        var error = step * MetresPerDegree * Math.Sqrt((1 + shrink * shrink) / 12);
        return new RecordFlag
        {
            Check = Name, Group = group, Rows = [.. places.Select(p => p.Source)],
            Found = $"{Rounding.Count(places.Count(p => IsOn(p.Position, step)))} of {Rounding.Count(places.Count, noun)} with a position "
                + $"are rounded to {name}, {log.Length(step * MetresPerDegree)} from north to south.",
            Harm = new FlagHarm(log.Unit.FromSi(error), log.Unit.Suffix, places.Count, $"Rounding alone puts a {noun} {log.Length(error)} "
                + $"off (root mean square, n = {Rounding.Count(places.Count, noun)}), and with it every miss recorded by position."),
            Rule = "nine tenths of the positions on one grid",
            Try = "take the digits the instrument gave: a miss needs 0.001 minute, or distance and bearing from the spot",
        };
    }

    private static bool IsOn(GeoPosition p, double step) =>
        WrittenNumber.IsMultiple(p.Latitude, step) && WrittenNumber.IsMultiple(p.Longitude, step);
}
