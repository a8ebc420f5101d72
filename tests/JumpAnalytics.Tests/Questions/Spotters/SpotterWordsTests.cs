using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

/// <summary>What the patterns say, way by way, of planted faults, and that they say nothing else.</summary>
public sealed class SpotterWordsTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200, Units = ReportUnits.Of("m", "mps") };

    private sealed record Fault
    {
        public double Long { get; init; }
        public double Right { get; init; }
        public double LongPerDrift { get; init; }
        public double RightPerDrift { get; init; }
        public double ExitLate { get; init; }
        public double North { get; init; }
        public bool Run { get; init; }
    }

    /// <summary>Thirty missions of three landings in winds from everywhere, errors of 6 m, with a fault.</summary>
    private static List<Landing> Fly(Fault fault, string spotter = "A", int missions = 30)
    {
        var random = SeedStream.For(3, "words of " + spotter);
        var landings = new List<Landing>();
        for (var m = 0; m < missions; m++)
        {
            var (length, to) = (200 + 400 * random.NextDouble(), Bearing.FromDegrees(360 * random.NextDouble()));
            var drop = Made.Drop($"{spotter}-{m}", $"{spotter}m{m}",
                forecastDrift: LocalVector.FromPolar(length, to)) with { Spotter = spotter };
            var heading = Bearing.FromDegrees(360 * random.NextDouble());
            var (x, y) = StandardNormal.Pair(random);
            var exit = DownwindFrame.Along(LocalVector.FromPolar(1, heading))!.ToLocal(new(fault.ExitLate + 3 * x, 3 * y));
            if (fault.Run || fault.ExitLate != 0)
                drop = drop with { RunHeading = heading, GroundSpeed = 45, ExitSpacing = 0.001, ActualExit = drop.PlannedExit + exit };
            for (var j = 0; j < 3; j++)
            {
                var noise = new LocalVector(6 * Normal.Sample(random, 0, 1), 6 * Normal.Sample(random, 0, 1) + fault.North);
                var miss = drop.Frame!.ToLocal(
                    new(fault.Long + fault.LongPerDrift * (length - 400), fault.Right + fault.RightPerDrift * (length - 400)));
                if (fault.Run) miss += DownwindFrame.Along(LocalVector.FromPolar(1, heading))!.ToLocal(new(20, 0));
                landings.Add(Made.Landing(drop, miss + noise, exitOrder: 1));
            }
        }
        return landings;
    }

    private static string[] Said(Fault fault) =>
        [.. SpotterPatterns.Of(Fly(fault), _options).Points.Where(p => p.StartsWith("A (", StringComparison.Ordinal))];

    [Fact]
    public void Each_way_has_its_words()
    {
        Assert.Contains(" along the drift, long. Look next at what makes the drift longer", Assert.Single(Said(new() { Long = 12 })));
        Assert.Contains(" along the drift, short. Look next at what makes the drift shorter", Assert.Single(Said(new() { Long = -12 })));
        Assert.Contains(" across the drift, right. Look next at the wind line", Assert.Single(Said(new() { Right = 12 })));
        Assert.Contains(" across the drift, left. Look next at the wind line", Assert.Single(Said(new() { Right = -12 })));
        Assert.Contains(Said(new() { LongPerDrift = 0.1 }), p => p.Contains("the miss along the drift grows with the forecast drift by +"));
        Assert.Contains(Said(new() { LongPerDrift = -0.1 }), p => p.Contains("the miss along the drift falls with the forecast drift by −")
            && p.Contains("at no drift: not in proportion alone"));
        Assert.Contains(Said(new() { RightPerDrift = 0.1 }), p => p.Contains("as of a bearing some degrees off"));
        Assert.Contains(Said(new() { ExitLate = 30 }), p => p.Contains("from the planned exit (late; 30 missions and 90 landings"));
        Assert.Contains(Said(new() { ExitLate = -30 }), p => p.Contains("from the planned exit (early;"));
        Assert.Contains(Said(new() { Run = true }), p => p.Contains("along the run (beyond the spot as the aircraft flies)"));
        Assert.Contains(Said(new() { North = 20 }), p => p.Contains("keep to the compass more than to the drift, towards "));
    }

    /// <summary>Nothing planted, or one metre: within chance, with the number of looks and the most that it may be.</summary>
    [Fact]
    public void Nothing_planted_has_one_sentence_without_a_direction()
    {
        foreach (var fault in new Fault[] { new(), new() { Long = 0.5 } })
        {
            var patterns = SpotterPatterns.Of(Fly(fault), _options);
            var said = Assert.Single(patterns.Points, p => p.StartsWith("A (30 missions and 90 landings)", StringComparison.Ordinal));
            Assert.Equal(8, patterns.Looks.Count); // of the base and one spotter: mean, two slopes, compass
            Assert.Contains("within chance after 8 looks (Holm, 5 % level)", said);
            var mean = patterns.Of("A").Downwind.Value!;
            var most = new[] { mean.First.Range!.Value.Low, mean.First.Range!.Value.High, mean.Second.Range!.Value.Low,
                mean.Second.Range.Value.High }.Max(Math.Abs);
            Assert.Contains($"It may be as much as {Rounding.Fixed(most, 0)} m on an axis.", said);
            Assert.DoesNotContain("Look next", string.Concat(patterns.Points));
            Assert.Contains("1 spotter with 10 missions or more, none has a mean miss beyond chance", patterns.Reading);
        }
    }

    /// <summary>The same p is a finding among few looks and none among many.</summary>
    [Fact]
    public void Other_looks_take_a_name_away()
    {
        var patterns = SpotterPatterns.Of(Fly(new() { Long = 4 }), _options);
        Assert.Contains(patterns.Points, p => p.StartsWith("A (", StringComparison.Ordinal) && p.Contains("long. Look next"));
        var p0 = patterns.Of("A").Downwind.Value!.NoBias.PValue;
        var many = (int)Math.Ceiling(0.06 / p0);
        if (many > 5_000_000) many = 5_000_000;
        var beside = patterns.HeldTogether(new Looks([.. patterns.LooksTaken,
            .. Enumerable.Range(0, many).Select(i => new Look($"{i}", "other", 0.5))]));
        Assert.Equal(Math.Min(1, p0 * (many + 8)) > 0.05, beside.Points.Any(p => p.StartsWith("A (", StringComparison.Ordinal)
            && p.Contains("within chance after")));
        Assert.True(beside.Of("A").AdjustedP > patterns.Of("A").AdjustedP);
    }

    /// <summary>t of the first coordinate on missions − 1: its p is below a level just when the interval there leaves out zero.</summary>
    [Fact]
    public void P_of_an_axis_agrees_with_its_interval()
    {
        var sample = PlaneSample.Of(Fly(new() { Long = 1 }).Select(l => new PlaneReading(l.Drop.Mission, l.MissDownwind)));
        var p = MeanMiss.Of(sample).Value!.FirstP;
        Assert.False(MeanMiss.Of(sample, 1 - 1.02 * p).Value!.First.Range!.Value.Contains(0));
        Assert.True(MeanMiss.Of(sample, 1 - 0.98 * p).Value!.First.Range!.Value.Contains(0));
    }
}
