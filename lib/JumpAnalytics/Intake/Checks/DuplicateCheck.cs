using NodaTime;

namespace JumpAnalytics;

/// <summary>The same pass or the same jumper twice, as when a load sheet and a jumper log are put together.</summary>
internal sealed class DuplicateCheck : IRecordCheck
{
    /// <summary>Minutes; an aircraft needs longer to come round for another pass (3 to 5, common practice, no source).</summary>
    private const double SamePass = 2;

    /// <summary>Metres; two forecasts or places closer than this are written alike.</summary>
    private const double SamePlace = 0.5;

    public string Name => "rows told twice";

    public CheckOutcome Look(CheckedLog log)
    {
        var drops = Drops(log).ToList();
        var passes = drops.Select(d => d.Second.Id).ToHashSet(StringComparer.Ordinal);
        var landings = SameStick(log).Concat(SameJumper(log, passes)).DistinctBy(l => l.Second.Source).ToList();
        var flags = new List<RecordFlag>();
        if (drops.Count > 0)
        {
            var twice = drops.Sum(d => log.LandingsOf(d.Second).Count);
            flags.Add(Flag("drop", [.. drops.Select(d => (d.First.Source, d.Second.Source))],
                $"{Rounding.Count(drops.Count, "drop")} within {SamePass} minutes of another, with the same spotter or "
                    + "mission and the same forecast.",
                log.Log.Landings.Count, twice, $"same forecast within {SamePass} minutes, same mission or spotter"));
        }
        if (landings.Count > 0)
        {
            flags.Add(Flag("landing", [.. landings.Select(l => (l.First.Source, l.Second.Source))],
                $"{Rounding.Count(landings.Count, "landing")} with the place in the stick, or the jumper, of another of the same mission.",
                log.Log.Landings.Count, landings.Count, "one jumper, or one place in a stick, twice"));
        }
        return new CheckOutcome(Name, log.Log.Drops.Count + log.Log.Landings.Count, flags);
    }

    private static IEnumerable<(Drop First, Drop Second)> Drops(CheckedLog log)
    {
        var sorted = log.Log.Drops.Where(d => d.TimeRecorded).OrderBy(d => d.Time).ToList();
        for (var i = 0; i < sorted.Count; i++)
        {
            for (var j = i + 1; j < sorted.Count
                && Period.Between(sorted[i].Time, sorted[j].Time, PeriodUnits.Seconds).Seconds <= SamePass * 60; j++)
            {
                var (a, b) = (sorted[i], sorted[j]);
                var alike = a.Mission == b.Mission || (a.Spotter is not null && a.Spotter == b.Spotter);
                if (alike && (a.ForecastDrift - b.ForecastDrift).Length <= SamePlace + 0.1 * a.ForecastDrift.Length) yield return (a, b);
            }
        }
    }

    private static IEnumerable<(Landing First, Landing Second)> SameStick(CheckedLog log)
    {
        foreach (var drop in log.Log.Drops)
        {
            var stick = log.LandingsOf(drop);
            for (var i = 0; i < stick.Count; i++)
            {
                for (var j = i + 1; j < stick.Count; j++)
                {
                    var (a, b) = (stick[i], stick[j]);
                    var order = a.ExitOrder is not null && a.ExitOrder == b.ExitOrder;
                    var place = a.Miss is { } p && b.Miss is { } q && (p - q).Length <= SamePlace && !IsRound(log, a);
                    // One of two lists may lack the code; where nobody has one, chance alone puts two at one place now and then.
                    var unknown = a.Jumper is null != b.Jumper is null || (a.Jumper is null && a == b with { Source = a.Source });
                    if (order || (Code(a) is { } code && code == Code(b))
                        || (place && unknown && (a.ExitOrder is null || b.ExitOrder is null))) yield return (a, b);
                }
            }
        }
    }

    /// <summary>Two of a stick may well both be "20 yards" off: a round distance does not make a place one's own.</summary>
    private static bool IsRound(CheckedLog log, Landing landing) =>
        WrittenPlaces.WholeDistance(log, landing) is var (number, _) && number % 5 == 0;

    private static IEnumerable<(Landing First, Landing Second)> SameJumper(CheckedLog log, HashSet<string> passesTwice) =>
        from known in log.Log.Landings.Where(l => Code(l) is not null && !passesTwice.Contains(l.Drop.Id))
            .GroupBy(l => (l.Drop.Mission, Code(l)))
        where known.Select(l => l.Drop.Id).Distinct().Count() > 1
        from second in known.Skip(1)
        select (known.First(), second);

    /// <summary>A jumper's code whatever its case, blanks, signs and leading zeros: J7, j-07 and J 07 are one.</summary>
    private static string? Code(Landing landing) => Code(landing.Jumper);

    /// <summary>The same of any person's code; null for none.</summary>
    internal static string? Code(string? person)
    {
        if (person is null) return null;
        var letters = person.Where(char.IsLetterOrDigit).Select(char.ToUpperInvariant).ToArray();
        var code = new System.Text.StringBuilder();
        for (var i = 0; i < letters.Length; i++)
        {
            var leading = letters[i] == '0' && (i == 0 || !char.IsDigit(letters[i - 1]))
                && i + 1 < letters.Length && char.IsDigit(letters[i + 1]);
            if (leading) letters[i] = ' '; // so that a further zero leads too
            else code.Append(letters[i]);
        }
        return code.Length > 0 ? code.ToString() : null;
    }

    private RecordFlag Flag(string noun, IReadOnlyList<(RowSource First, RowSource Second)> pairs, string found,
        int all, int twice, string rule) => new()
        {
            Check = Name, Group = RecordGroup.SingleRows, Rows = [.. pairs.SelectMany(p => new[] { p.First, p.Second }).Distinct()],
            Found = found, Rule = rule,
            Harm = new FlagHarm(100.0 * twice / Math.Max(all, 1), "percent", twice, $"{Rounding.Count(twice)} of "
                + $"{Rounding.Count(all, "landing")} ({Rounding.Percent((double)twice / Math.Max(all, 1), 1)}) would weigh double."),
            Try = $"keep one row of each {noun}, or give the other its own pass or jumper",
        };
}
