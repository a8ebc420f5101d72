namespace JumpAnalytics;

/// <summary>One pass: the misses of its jumpers and how far along the run each left from the middle of the stick.</summary>
internal sealed record StickPass(Drop Drop, int Mission, IReadOnlyList<Landing> Landings)
{
    /// <summary>Metres along the run between two exits; null where it is not on record.</summary>
    public double? Gap => Drop is { GroundSpeed: { } speed, ExitSpacing: { } spacing, RunHeading: not null }
        && double.IsFinite(speed * spacing) && speed * spacing >= 0 ? speed * spacing : null;

    /// <summary>Jumpers of the pass.</summary>
    public int Size { get; } = Math.Max(Landings.Count, Landings.Max(l => l.ExitOrder ?? 0));

    /// <summary>Unit vector of the run in the downwind frame; null where either is not known.</summary>
    public PlaneVector? Run =>
        Drop is { RunHeading: { } heading, Frame: { } frame } ? frame.ToDownwind(LocalVector.FromPolar(1, heading)) : null;

    /// <summary>Metres along the run from the middle of the stick to this jumper's exit; null where it is not known.</summary>
    public double? Offset(Landing landing) => landing.ExitOrder is { } order && Gap is { } gap ? gap * (order - (Size + 1) / 2.0) : null;

    public static IReadOnlyList<StickPass> Of(IReadOnlyList<Landing> landings)
    {
        var missions = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. landings.GroupBy(l => l.Drop, (IEqualityComparer<Drop>)ReferenceEqualityComparer.Instance)
            .Select(g => new StickPass(g.Key, Number(g.Key.Mission), [.. g]))];

        int Number(string mission)
        {
            if (!missions.TryGetValue(mission, out var m)) missions.Add(mission, m = missions.Count);
            return m;
        }
    }
}
