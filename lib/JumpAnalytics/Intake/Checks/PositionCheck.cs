using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// Spots far from the rest of the base's, with the slip that would bring them back; positions that the intake
/// refused; signs against the clock.
/// </summary>
internal sealed class PositionCheck : IRecordCheck
{
    /// <summary>Metres; spots nearer than this to the base's middle are in nobody's way.</summary>
    private const double Near = 100_000;

    /// <summary>A spot is far when it lies this many times as far from the middle as nine tenths of the base's spots do.</summary>
    private const double Far = 4;

    private const int FewestSpots = 5;

    private static readonly (string Words, Func<GeoPosition, (double Lat, double Lon)> Repair)[] _slips =
    [
        ("longitude lost its sign", p => (p.Latitude, -p.Longitude)),
        ("latitude lost its sign", p => (-p.Latitude, p.Longitude)),
        ("both lost their signs", p => (-p.Latitude, -p.Longitude)),
        ("latitude and longitude are swapped", p => (p.Longitude, p.Latitude)),
        ("latitude and longitude are swapped and the sign is lost", p => (p.Longitude, -p.Latitude)),
    ];

    public string Name => "positions";

    public CheckOutcome Look(CheckedLog log)
    {
        var placed = log.Log.Drops.Where(d => d.Spot is not null).ToList();
        List<RecordFlag> flags = [.. placed.GroupBy(d => d.Base).SelectMany(b => OfBase(log, b.Key, [.. b]))];
        var told = flags.SelectMany(f => f.Rows).ToHashSet();
        if (AgainstClock(log, [.. placed.Where(d => !told.Contains(d.Source))]) is { } clock) flags.Add(clock);
        flags.AddRange(Refused(log));
        return new CheckOutcome(Name, placed.Count, flags);
    }

    private IEnumerable<RecordFlag> OfBase(CheckedLog log, string? name, IReadOnlyList<Drop> drops)
    {
        if (drops.Select(d => d.Mission).Distinct().Count() < FewestSpots) yield break;
        var middle = new GeoPosition(drops.Select(d => d.Spot!.Value.Latitude).Median(),
            drops.Select(d => d.Spot!.Value.Longitude).Median());
        var away = drops.Select(d => Distance(middle, d.Spot!.Value)).ToList();
        var trusted = away.Quantile(0.75) * Far + Near;
        var far = Math.Max(Near, Far * away.Where(a => a < trusted).Quantile(0.9));
        var astray = drops.Zip(away).Where(d => d.Second > far).ToList();
        foreach (var kind in astray.GroupBy(d => Slip(d.First.Spot!.Value, middle, far)).OrderByDescending(k => k.Count()))
        {
            var km = kind.Select(d => d.Second).Median() / 1000;
            yield return new RecordFlag
            {
                Check = Name, Group = name is null ? RecordGroup.Whole : new RecordGroup("base", name),
                Rows = [.. kind.Select(d => d.First.Source)],
                Found = $"{Rounding.Count(kind.Count(), "spot")} of {Rounding.Count(drops.Count, "drop")} "
                    + $"lie{(kind.Count() == 1 ? "s" : "")} far from the rest; {kind.Key ?? "no swap and no sign brings them back"}.",
                Harm = new FlagHarm(km, "km", kind.Count(), $"The spots are {Rounding.Fixed(km, 0)} km off the base's "
                    + $"middle in the median (n = {Rounding.Count(kind.Count(), "drop")}); landings recorded by position can't be placed, "
                    + "those by distance and bearing stay right."),
                Rule = $"farther than {Rounding.Fixed(far / 1000, 0)} km: {Near / 1000} km or {Far} times the "
                    + "distance of nine tenths of the spots",
                Try = "compare with the load records; the order is latitude, longitude, and west and south are negative",
            };
        }
    }

    private static string? Slip(GeoPosition spot, GeoPosition middle, double far) => _slips
        .Where(s => s.Repair(spot) is var (lat, lon) && Math.Abs(lat) <= 90 && Math.Abs(lon) <= 180
            && Distance(middle, new GeoPosition(lat, lon)) <= far)
        .Select(s => s.Words).FirstOrDefault();

    /// <summary>A longitude and the clock's offset from UTC are tied: 15 degrees an hour, give or take zones and summer time.</summary>
    private RecordFlag? AgainstClock(CheckedLog log, IReadOnlyList<Drop> drops)
    {
        const double mostHours = 4;
        var wrong = drops.Where(d => d.UtcOffset is { } o && HoursApart(d.Spot!.Value.Longitude, o.Seconds) > mostHours
            && HoursApart(-d.Spot.Value.Longitude, o.Seconds) <= mostHours / 2).ToList();
        if (wrong.Count < FewestSpots || wrong.Count < 0.5 * drops.Count) return null;
        return new RecordFlag
        {
            Check = Name, Group = RecordGroup.Whole, Rows = [.. wrong.Select(d => d.Source)],
            Found = $"in {Rounding.Count(wrong.Count)} of {Rounding.Count(drops.Count, "drop")} the longitude does not fit the clock's "
                + "offset from UTC and would with the other sign.",
            Harm = new FlagHarm(2 * wrong.Select(d => Math.Abs(d.Spot!.Value.Longitude)).Median() * 111.32, "km", wrong.Count,
                "East and west of the spots change places against the map; magnetic declinations and grids of the wrong side of the world "
                    + $"would be used (n = {Rounding.Count(wrong.Count, "drop")})."),
            Rule = $"more than {mostHours} hours between offset and longitude / 15",
            Try = "longitudes west of Greenwich are negative",
        };
    }

    private static double HoursApart(double longitude, int offsetSeconds) => Math.Abs(longitude / 15 - offsetSeconds / 3600.0);

    private IEnumerable<RecordFlag> Refused(CheckedLog log)
    {
        LogColumn[] columns = [LogColumns.SpotLat, LogColumns.SpotLon, LogColumns.LandingLat, LogColumns.LandingLon];
        string[] kinds = [ProblemKinds.OutOfRange, ProblemKinds.NotAPosition];
        var problems = log.Log.Intake.QuarantineOfPart.SelectMany(q => q.Problems).Concat(log.Log.Intake.SetAside)
            .Where(p => kinds.Contains(p.Kind) && Array.Exists(columns, c => p.Column.Contains(c.Name, StringComparison.OrdinalIgnoreCase)))
            .ToList();
        if (problems.Count == 0) yield break;
        yield return new RecordFlag
        {
            Check = Name, Group = RecordGroup.SingleRows, Rows = [.. problems.Select(p => p.Source).Distinct()],
            Found = $"{Rounding.Count(problems.Count, "position")} can be none or lie{(problems.Count == 1 ? "s" : "")} far from the spot, "
                + $"and {(problems.Count == 1 ? "was" : "were")} not used.",
            Harm = new FlagHarm(problems.Count, "rows", problems.Count,
                $"What rests on them is not counted (n = {Rounding.Count(problems.Count, "position")})."),
            Rule = "latitude within 90, longitude within 180 degrees, landings within 50 km, or 20 target radii, of the spot",
            Try = "look for latitude and longitude swapped, a lost sign or a slip of a digit",
        };
    }

    /// <summary>Great-circle distance in metres on a sphere of 6,371 km (haversine): enough to tell near from far.</summary>
    internal static double Distance(GeoPosition a, GeoPosition b)
    {
        var (lat1, lat2) = (double.DegreesToRadians(a.Latitude), double.DegreesToRadians(b.Latitude));
        var (dLat, dLon) = (lat2 - lat1, double.DegreesToRadians(b.Longitude - a.Longitude));
        var h = Math.Pow(Math.Sin(dLat / 2), 2) + Math.Cos(lat1) * Math.Cos(lat2) * Math.Pow(Math.Sin(dLon / 2), 2);
        return 2 * 6_371_000 * Math.Asin(Math.Min(1, Math.Sqrt(h)));
    }
}
