namespace JumpAnalytics;

/// <summary>
/// Tests for landings that share missions. A test that takes the landings of one mission as independent rejects too often; here it sees one
/// landing of each mission, drawn by chance, again and again.
/// </summary>
/// <remarks>
/// The p-values of the draws depend on each other in a way nobody knows. Twice their median is a p-value all the same (Rüschendorf 1982, Advances
/// in Applied Probability 14:623-632; Meinshausen, Meier and Bühlmann 2009, Journal of the American Statistical Association 104:1671-1681): it is
/// below α only where half of them are below α/2, and that has a probability of α at most. It errs on the side of no rejection.
/// </remarks>
public static class MissionDraws
{
    /// <summary>Tests the placed misses, one landing of each mission at a time.</summary>
    /// <param name="sample">Misses and missions; landings known only as beyond a distance are left out.</param>
    /// <param name="test">The test of independent misses, for instance <c>misses => NormalityTests.HenzeZirkler(misses)</c>.</param>
    /// <param name="draws">How often a landing of each mission is drawn.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <returns>
    /// The test: its p-value twice the median, its statistic that of the draw in the middle. Where no two landings share a mission, the test as
    /// it is. A draw that can't be tested counts as a p-value of 1; when it is the one in the middle, its reason is returned.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">No draws.</exception>
    public static Fit<FitTest> Test(MissSample sample, Func<IReadOnlyList<DownwindVector>, Fit<FitTest>> test, int draws = 25, int seed = 1)
    {
        var names = sample.MissionOfPlaced.ToArray();
        var placed = sample.Beyond.Count == 0 ? sample : MissSample.Of(sample.Placed.Select((m, i) => new MissReading($"{names[i]}", m)));
        return Test(placed, (draw, _) => test(draw.Placed), draws, seed);
    }

    /// <summary>The same for a test that also looks at landings known only as beyond a distance. It is given the number of the draw, for a stream of its own.</summary>
    internal static Fit<FitTest> Test(MissSample sample, Func<MissSample, int, Fit<FitTest>> test, int draws, int seed)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 1);
        if (sample.IsIndependent) return test(sample, 0);
        var tests = Of(sample, draws, seed).Select(test).OrderBy(t => t.Value?.PValue ?? 2).ToList();
        var half = tests[(draws - 1) / 2];
        if (half.Value is not { } middle) return half;
        return Fit<FitTest>.Made(middle with
        {
            Name = middle.Name + ", one landing of each mission",
            PValue = Math.Min(1, 2 * middle.PValue),
            Method = $"twice the median of {draws} draws with seed {seed}; {middle.Method}",
            Bootstrap = middle.Bootstrap is { } run ? run with { StandardError = 2 * run.StandardError } : null,
        });
    }

    /// <summary>Samples of one landing of each mission, missions in their order.</summary>
    internal static IEnumerable<MissSample> Of(MissSample sample, int draws, int seed)
    {
        var missions = ByMission(sample);
        for (var d = 0; d < draws; d++)
        {
            var random = SeedStream.For(seed, $"one landing of each mission {d}");
            yield return MissSample.Of(missions.Select(landings => landings[random.Next(landings.Count)]).ToList());
        }
    }

    /// <summary>The landings of some missions drawn by chance, missions in their order; the sample itself when it has no more.</summary>
    internal static MissSample Some(MissSample sample, int missions, int seed)
    {
        if (sample.Missions <= missions) return sample;
        var random = SeedStream.For(seed, "some missions");
        return MissSample.Of(ByMission(sample).Select(landings => (Landings: landings, Order: random.NextDouble())).Index()
            .OrderBy(m => m.Item.Order).Take(missions).OrderBy(m => m.Index).SelectMany(m => m.Item.Landings).ToList());
    }

    private static List<MissReading>[] ByMission(MissSample sample)
    {
        var missions = new List<MissReading>[sample.Missions];
        for (var m = 0; m < missions.Length; m++) missions[m] = [];
        for (var i = 0; i < sample.Placed.Count; i++) Add(sample.MissionOfPlaced[i], sample.Placed[i], null, sample.MeasuredSd[i]);
        for (var i = 0; i < sample.Beyond.Count; i++) Add(sample.MissionOfBeyond[i], null, sample.Beyond[i], null);
        return missions;

        void Add(int mission, DownwindVector? miss, double? beyond, double? sd) => missions[mission].Add(new MissReading($"{mission}", miss, beyond, sd));
    }
}
