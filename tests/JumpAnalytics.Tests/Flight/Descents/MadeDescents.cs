namespace JumpAnalytics.Tests;

/// <summary>How a descent is made.</summary>
internal sealed record MadeDescent
{
    public double ForwardSpeed { get; init; } = 4;
    public double DescentRate { get; init; } = 5;
    public double ExitHeight { get; init; } = 450;
    public WindVector SurfaceWind { get; init; } = new(3, 1);

    /// <summary>Change of the wind for each metre of height.</summary>
    public WindVector Shear { get; init; } = new(0.005, 0);

    /// <summary>Standard deviation of gusts per axis, m/s, and how long they last, s.</summary>
    public double Gust { get; init; }

    public double GustSeconds { get; init; } = 15;

    /// <summary>Full turns flown, spread over the descent between straight legs; each takes <see cref="TurnSeconds"/>.</summary>
    public double Turns { get; init; } = 4;

    public double TurnSeconds { get; init; } = 7;

    public double Hertz { get; init; } = 1;
    public double Noise { get; init; } = 3;

    /// <summary>Part of the noise's variance that wanders (first-order, 20 s), the rest being white.</summary>
    public double Wandering { get; init; }

    /// <summary>Seconds without points, from and to.</summary>
    public (double From, double To)? Gap { get; init; }

    public int Seed { get; init; } = 1;
}

/// <summary>A made descent and the truth behind it.</summary>
internal sealed record FlownTruth(DescentTrack Track, Func<double, WindVector> WindAt, LocalVector Drift, LocalVector Steering,
    double ForwardSpeed, double Seconds);

/// <summary>Descents under canopy with known wind and steering: integrated at 50 Hz, then seen by a recorder.</summary>
internal static class MadeDescents
{
    private const double Step = 0.02;

    public static FlownTruth Fly(MadeDescent made)
    {
        var random = SeedStream.For(made.Seed, "made descent");
        var seconds = made.ExitHeight / made.DescentRate;
        var steps = (int)Math.Round(seconds / Step);
        var turnRates = Turns(made, seconds, random);
        var heading = 2 * Math.PI * random.NextDouble();
        var (drift, steering, rate, gust) = (default(LocalVector), default(LocalVector), 0.0, StandardNormal.Pair(random));
        gust = (made.Gust * gust.First, made.Gust * gust.Second);
        var (exit, points) = (new LocalVector(-500, 200), new List<TrackPoint>());
        var (every, wander, keep) = ((int)Math.Round(1 / made.Hertz / Step), StandardNormal.Pair(random), Math.Exp(-1 / made.Hertz / 20));
        var winds = new List<(double Height, WindVector Wind)>();
        for (var i = 0; i <= steps; i++)
        {
            var (t, height) = (i * Step, made.ExitHeight - i * Step * made.DescentRate);
            var wind = made.SurfaceWind + height * made.Shear + new WindVector(gust.First, gust.Second);
            winds.Add((height, wind));
            if (i % every == 0)
            {
                var white = StandardNormal.Pair(random);
                var (slow, fast) = (made.Noise * Math.Sqrt(made.Wandering), made.Noise * Math.Sqrt(1 - made.Wandering));
                var step = StandardNormal.Pair(random);
                wander = (keep * wander.First + Math.Sqrt(1 - keep * keep) * step.First,
                    keep * wander.Second + Math.Sqrt(1 - keep * keep) * step.Second);
                if (made.Gap is not { } gap || t < gap.From || t > gap.To)
                    points.Add(new TrackPoint(t, exit + drift + steering
                        + new LocalVector(slow * wander.First + fast * white.First, slow * wander.Second + fast * white.Second), height));
            }
            rate += (turnRates(t) - rate) * (1 - Math.Exp(-Step / 0.7)); // a canopy takes a moment to begin and end a turn
            var (sin, cos) = Math.SinCos(heading + rate * Step / 2);
            if (i == steps) break;
            drift += wind.Over(Step);
            steering += made.ForwardSpeed * Step * new LocalVector(sin, cos);
            heading += rate * Step;
            var (fade, kick) = (Math.Exp(-Step / made.GustSeconds), StandardNormal.Pair(random));
            gust = (fade * gust.First + made.Gust * Math.Sqrt(1 - fade * fade) * kick.First,
                fade * gust.Second + made.Gust * Math.Sqrt(1 - fade * fade) * kick.Second);
        }
        var track = new DescentTrack { Name = "made.gpx", Points = points, PlaceSd = made.Noise, HeightSd = 0.01 };
        return new FlownTruth(track,
            h => winds[Math.Clamp((int)Math.Round((made.ExitHeight - h) / made.DescentRate / Step), 0, winds.Count - 1)].Wind, drift,
            steering, made.ForwardSpeed, seconds);
    }

    /// <summary>Turn rate wanted at a time: turns of one or half a round, to either side, at random times between straight legs.</summary>
    private static Func<double, double> Turns(MadeDescent made, double seconds, Random random)
    {
        var turns = new List<(double From, double To, double Rate)>();
        var left = made.Turns;
        var legs = Math.Max(1, (int)Math.Ceiling(made.Turns));
        for (var k = 0; k < legs && left > 0; k++)
        {
            var part = Math.Min(1, left);
            left -= part;
            var from = (k + 0.2 + 0.4 * random.NextDouble()) * seconds / legs;
            turns.Add((from, from + part * made.TurnSeconds, (random.NextDouble() < 0.5 ? -1 : 1) * 2 * Math.PI / made.TurnSeconds));
        }
        return t => turns.FirstOrDefault(x => t >= x.From && t < x.To).Rate;
    }
}
