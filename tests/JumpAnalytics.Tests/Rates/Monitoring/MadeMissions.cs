using NodaTime;

namespace JumpAnalytics.Tests.Monitoring;

/// <summary>
/// Missions drawn from a two-level model with a heavy tail: a part shared by the mission, the jumpers' own part, and 8 of 100 landings with
/// an own part of lognormal length instead.
/// </summary>
internal sealed class MadeMissions(Random random)
{
    private int _next;

    /// <summary>Standard deviation per axis of what a mission shares, metres.</summary>
    public double Shared { get; init; } = 8;

    /// <summary>Standard deviation per axis of the own part, metres.</summary>
    public double Own { get; init; } = 8;

    /// <summary>Share of landings of the heavy tail.</summary>
    public double Tail { get; init; } = 0.08;

    /// <summary>Landings of one mission of 2 to 8; winds of two bands, the stronger one with misses 1.5 times as large.</summary>
    public IReadOnlyList<Landing> Mission(string? spotter = null, double along = 0, double across = 0, double factor = 1,
        string? canopy = null, string? at = null, string season = "2031")
    {
        var n = _next++;
        var strong = random.NextDouble() < 0.4;
        var drop = Made.Drop($"d{n}", $"m{n:00000}", season, targetRadius: 30, windSpeed: strong ? 6 : 3) with
        {
            Spotter = spotter, Base = at, Time = new LocalDateTime(2031, 1, 1, 12, 0).PlusHours(n),
        };
        var scale = factor * (strong ? 1.5 : 1);
        var (a, b) = StandardNormal.Pair(random);
        return
        [
            .. Enumerable.Range(0, random.Next(2, 9)).Select(_ =>
            {
                var (x, y) = StandardNormal.Pair(random);
                if (random.NextDouble() < Tail)
                {
                    var (sin, cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
                    var length = 60 * Math.Exp(0.55 * x);
                    return Made.Landing(drop, scale * (Shared * b + length * sin) + across,
                        scale * (Shared * a + length * cos) + along) with { Canopy = canopy };
                }
                return Made.Landing(drop, scale * (Shared * b + Own * y) + across,
                    scale * (Shared * a + Own * x) + along) with { Canopy = canopy };
            }),
        ];
    }

    public IReadOnlyList<Landing> Missions(int count, string? spotter = null, double along = 0, double across = 0, double factor = 1,
        string? canopy = null, string? at = null, string season = "2031") =>
        [.. Enumerable.Range(0, count).SelectMany(_ => Mission(spotter, along, across, factor, canopy, at, season))];
}
