namespace JumpAnalytics;

/// <summary>
/// How much of an exit's offset from the middle of its stick is left in the landing: 0 when jumpers steer it off, 1 when none of it.
/// Slope of the miss along the run on the offset within passes (so that whatever a pass shares drops out), variance between
/// missions, t on missions − 1.
/// </summary>
[TypeFormatterSource]
public sealed record ExitSmear
{
    /// <summary>Fewest missions with a pass of two or more whose exits are on record.</summary>
    public const int FewestMissions = 5;

    private (double XY, double XX)[] _byMission = [];

    /// <summary>The share left, with its interval; it may come out below 0 or above 1 by chance.</summary>
    public required Estimate Left { get; init; }

    /// <summary>Missions behind it.</summary>
    public required int Missions { get; init; }

    /// <summary>Passes behind it, of two jumpers or more.</summary>
    public required int Passes { get; init; }

    /// <summary>Landings behind it.</summary>
    public required int Landings { get; init; }

    /// <summary>The share left when each mission counts as often as it was drawn; null when no drawn one tells.</summary>
    internal double? Drawn(int[] draws)
    {
        var (xy, xx) = (0.0, 0.0);
        for (var m = 0; m < draws.Length; m++) (xy, xx) = (xy + draws[m] * _byMission[m].XY, xx + draws[m] * _byMission[m].XX);
        return xx > 0 ? xy / xx : null;
    }

    /// <summary>Estimates it.</summary>
    internal static Fit<ExitSmear> Of(IReadOnlyList<StickPass> passes, int missions, double confidence)
    {
        var sums = new (double XY, double XX)[missions];
        var (used, landings) = (0, 0);
        foreach (var pass in passes)
        {
            if (pass.Run is not { } run) continue;
            var known = pass.Landings.Select(l => (X: pass.Offset(l), Y: l.MissDownwind)).Where(l => l.X is not null && l.Y is not null)
                .Select(l => (X: l.X!.Value, Y: l.Y!.Value.Along * run.Along + l.Y.Value.Across * run.Across)).ToList();
            if (known.Count < 2) continue;
            var (x, y) = (known.Average(k => k.X), known.Average(k => k.Y));
            var (xy, xx) = (known.Sum(k => (k.X - x) * (k.Y - y)), known.Sum(k => (k.X - x) * (k.X - x)));
            if (!(xx > 0)) continue;
            sums[pass.Mission] = (sums[pass.Mission].XY + xy, sums[pass.Mission].XX + xx);
            (used, landings) = (used + 1, landings + known.Count);
        }
        var telling = sums.Count(s => s.XX > 0);
        if (telling < FewestMissions)
            return Fit<ExitSmear>.Refused($"{Rounding.Count(telling, "mission")} with exit order, run heading, ground speed and spacing of "
                + $"a stick on record; it needs {FewestMissions}");
        var all = sums.Sum(s => s.XX);
        var slope = sums.Sum(s => s.XY) / all;
        var error = Math.Sqrt(sums.Sum(s => (s.XY - slope * s.XX) * (s.XY - slope * s.XX)) * telling / (telling - 1)) / all;
        var half = QuantileOf.T(telling - 1, TailShare.Middle(confidence)) * error;
        return Fit<ExitSmear>.Made(new ExitSmear
        {
            Left = Estimate.Of(slope, new Interval(slope - half, slope + half)),
            Missions = telling, Passes = used, Landings = landings, _byMission = sums,
        });
    }
}
