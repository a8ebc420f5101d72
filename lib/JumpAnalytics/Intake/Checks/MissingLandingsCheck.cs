using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>
/// Landings that should be there: hang-ups without a distance, gaps in the exit order, and groups with more blanks than the rest.
/// </summary>
internal sealed class MissingLandingsCheck : IRecordCheck
{
    private const int FewestDrops = 10;

    /// <summary>Difference of the shares of drops with something missing that is worth a flag.</summary>
    private const double LeastExcess = 0.1;

    public string Name => "landings not written down";

    public CheckOutcome Look(CheckedLog log)
    {
        var (hits, decided) = (log.Log.Landings.Count(l => l.Outcome == LandingOutcome.Hit),
            log.Log.Landings.Count(l => l.Outcome != LandingOutcome.Undecided));
        var hangUps = log.Log.Intake.QuarantineOfPart.Where(q => q.IsHangUpWithoutDistance).ToList();
        var refused = log.Log.Intake.QuarantineOfPart.Where(q => q.StandsForLanding)
            .SelectMany(q => q.Fields).ToHashSet(StringComparer.Ordinal);
        // A stick whose landings were read and refused is the intake's to tell.
        var looked = log.Log.Drops.Where(d => !refused.Contains(d.Id)).ToList();
        var missing = looked.Select(d => (Drop: d, Count: Missing(log, d))).Where(m => m.Count > 0).ToList();
        var flags = new List<RecordFlag>();
        if (hangUps.Count > 0)
        {
            flags.Add(Flag(RecordGroup.SingleRows, [.. hangUps.Select(q => q.Source)],
                $"{Rounding.Count(hangUps.Count, "hang-up")} {(hangUps.Count == 1 ? "has" : "have")} neither a place nor a distance and "
                    + $"{(hangUps.Count == 1 ? "is" : "are")} in no number.",
                Range(hits, decided, hangUps.Count), "hung up, no place, no distance",
                "give landing_beyond_*: farther than the last place they were seen at"));
        }
        if (missing.Count > 0)
        {
            var (jumpers, empty) = (missing.Sum(m => m.Count), missing.Count(m => log.LandingsOf(m.Drop).Count == 0));
            flags.Add(Flag(RecordGroup.SingleRows, [.. missing.Select(m => m.Drop.Source)],
                $"{Rounding.Count(jumpers, "landing")} at least {(jumpers == 1 ? "is" : "are")} "
                    + $"missing from {Rounding.Count(missing.Count, "drop")}: {Rounding.Count(empty)} without any landing, "
                    + $"{Rounding.Count(missing.Count - empty)} with gaps in the exit order.",
                Range(hits, decided, jumpers), "a gap in the order of exit, or a drop without a landing",
                "ask for the jumpers' own notes, and look among the refused rows for those that name no drop"));
        }
        var gaps = missing.Select(m => m.Drop).ToHashSet<Drop>(ReferenceEqualityComparer.Instance);
        flags.AddRange(log.Groups.Skip(1).Select(g => Group(log, g, looked, gaps)).OfType<RecordFlag>());
        return new CheckOutcome(Name, log.Log.Drops.Count + hangUps.Count, flags);
    }

    /// <summary>Least number of jumpers who left and did not land in the record.</summary>
    private static int Missing(CheckedLog log, Drop drop)
    {
        var stick = log.LandingsOf(drop);
        return stick.Count == 0 ? 1 : MissingLandings.Gaps(stick);
    }

    private RecordFlag? Group(CheckedLog log, DropGroup group, IReadOnlyList<Drop> looked, HashSet<Drop> gaps)
    {
        var inside = looked.Where(group.Holds).ToList();
        var (n, k) = (inside.Count, inside.Count(gaps.Contains));
        var (others, othersMissing) = (looked.Count - n, looked.Count(gaps.Contains) - k);
        if (n < FewestDrops || others < FewestDrops || k == 0 || (double)k / n - (double)othersMissing / others < LeastExcess) return null;
        var allowed = log.Allowing(AtLeast(k, n, k + othersMissing, looked.Count), log.Groups.Count - 1);
        if (!log.IsStrong(allowed)) return null;
        var landings = inside.SelectMany(log.LandingsOf).ToList();
        var (hits, decided) =
            (landings.Count(l => l.Outcome == LandingOutcome.Hit), landings.Count(l => l.Outcome != LandingOutcome.Undecided));
        var flag = Flag(group.Group, [.. inside.Where(gaps.Contains).Select(d => d.Source)],
            $"in {Rounding.Count(k)} of {Rounding.Count(n, "drop")} ({Rounding.Percent((double)k / n)}) landings are missing, "
                + $"against {Rounding.Percent((double)othersMissing / others)} of the other {Rounding.Count(others, "drop")}; "
                + "perhaps only misses, or only hits, are noted.",
            Range(hits, decided, inside.Sum(d => Missing(log, d))), "Fisher's exact test, one-sided, against the rest",
            "ask whether a landing without trouble was left blank");
        return flag with { PValue = allowed };
    }

    /// <summary>Fisher's exact test: chance that a group of n holds k or more of the marked, drawn without replacement.</summary>
    private static double AtLeast(int k, int n, int marked, int all)
    {
        var p = 0.0;
        for (var i = k; i <= Math.Min(n, marked); i++)
        {
            if (n - i > all - marked) continue;
            p += Math.Exp(SpecialFunctions.BinomialLn(marked, i) + SpecialFunctions.BinomialLn(all - marked, n - i)
                - SpecialFunctions.BinomialLn(all, n));
        }
        return Math.Min(1, p);
    }

    private static FlagHarm Range(int hits, int decided, int missing)
    {
        var all = Math.Max(decided + missing, 1);
        var (low, high) = ((double)hits / all, (double)(hits + missing) / all);
        return new FlagHarm(100 * (high - low), "points", missing,
            $"Counted, they would bring the landing rate to between {Rounding.Percent(low, 1)} (all misses) and "
                + $"{Rounding.Percent(high, 1)} (all hits), now {(decided > 0 ? Rounding.Percent((double)hits / decided, 1) : "unknown")} "
                + $"(n = {Rounding.Count(decided)} + {Rounding.Count(missing)}).");
    }

    private RecordFlag Flag(RecordGroup group, IReadOnlyList<RowSource> rows, string found, FlagHarm harm, string rule, string fix) =>
        new() { Check = Name, Group = group, Rows = rows, Found = found, Harm = harm, Rule = rule, Try = fix };
}
