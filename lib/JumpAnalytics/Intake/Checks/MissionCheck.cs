using NodaTime;

namespace JumpAnalytics;

/// <summary>
/// Missions that can't be one flight: a mission is one flight from one base with one spotter, and every interval counts missions as the
/// independent pieces of the record.
/// </summary>
internal sealed class MissionCheck : IRecordCheck
{
    /// <summary>Hours between two passes above which they are of two flights (fuel for less; common practice, no source).</summary>
    private const long LongestPause = 12;

    public string Name => "one flight a mission";

    public bool IsRuleAlone => true;

    public CheckOutcome Look(CheckedLog log)
    {
        var drops = log.Log.Drops;
        var odd = drops.GroupBy(d => d.Mission, StringComparer.Ordinal).Select(g => new Parts([.. g])).Where(p => p.Flights > 1).ToList();
        return new CheckOutcome(Name, drops.Count, odd.Count == 0 ? [] : [Flag(log, odd)]);
    }

    /// <summary>The drops of one mission, and the flights they look like: runs of passes without a long pause, spotters, bases.</summary>
    private sealed record Parts(IReadOnlyList<Drop> Drops)
    {
        public int Runs { get; } = RunsOf(Drops);

        public int Spotters { get; } = Different(Drops.Select(d => DuplicateCheck.Code(d.Spotter)));

        public int Bases { get; } = Different(Drops.Select(d => d.Base));

        public int Flights => Math.Max(Runs, Math.Max(Spotters, Bases));

        private static int Different(IEnumerable<string?> names) => Math.Max(1, names.OfType<string>().Distinct().Count());

        private static int RunsOf(IReadOnlyList<Drop> drops)
        {
            var sorted = drops.InTime().ToList();
            return 1 + sorted.Zip(sorted.Skip(1)).Count(p => p.First.TimeRecorded && p.Second.TimeRecorded
                ? Period.Between(p.First.Time, p.Second.Time, PeriodUnits.Minutes).Minutes > 60 * LongestPause
                : p.First.Time.Date != p.Second.Time.Date);
        }
    }

    private RecordFlag Flag(CheckedLog log, List<Parts> odd)
    {
        var (landings, flights) = (odd.Sum(p => p.Drops.Sum(d => log.LandingsOf(d).Count)), odd.Sum(p => p.Flights));
        var share = (double)landings / Math.Max(1, log.Log.Landings.Count);
        (int Count, string Words)[] why = [(odd.Count(p => p.Runs > 1), "on different days"),
            (odd.Count(p => p.Spotters > 1), "with different spotters"), (odd.Count(p => p.Bases > 1), "from different bases")];
        return new RecordFlag
        {
            Check = Name, Group = RecordGroup.SingleRows, Rows = [.. odd.SelectMany(p => p.Drops).Select(d => d.Source)],
            Found = $"{Rounding.Count(odd.Count, "mission")} can't be one flight ({string.Join(", ", odd.Take(5)
                .Select(p => p.Drops[0].Mission))}{(odd.Count > 5 ? " …" : "")}): passes "
                + $"{string.Join(", ", why.Where(w => w.Count > 0).Select(w => $"{w.Words} in {Rounding.Count(w.Count)}"))}.",
            Harm = new FlagHarm(100 * share, "percent", landings,
                $"They count as {Rounding.Count(odd.Count)} and would be {Rounding.Count(flights)} missions at least; the intervals of "
                    + $"what rests on them ({Rounding.Percent(share, 1)} of the landings, n = {Rounding.Count(landings)}) are not right."),
            Rule = $"passes more than {LongestPause} hours apart (another day, where the time is not recorded), two spotters or two bases",
            Try = "give each flight a number of its own; a number that two bases share may begin with the base",
        };
    }
}
