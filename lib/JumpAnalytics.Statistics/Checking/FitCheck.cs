namespace JumpAnalytics;

/// <summary>
/// Whether a fitted distribution fits, judged by distances from the spot, on which hit rates rest: a test that allows for landings of one mission
/// and for fitted parameters, and the shares of landings near the spot and far off beside those of the model.
/// </summary>
[TypeFormatterSource]
public sealed record FitCheck
{
    /// <summary>Fewest missions for a verdict; with fewer even a bad misfit is seldom found.</summary>
    public const int FewestMissions = 20;

    /// <summary>Missions below which a far tail is often missed; the reading says so.</summary>
    public const int FewMissions = 100;

    /// <summary>Most missions that are tested, drawn by chance from more; the test says so.</summary>
    public const int MostMissions = 5000;

    /// <summary>A p-value below this speaks against the fit.</summary>
    public const double Level = 0.05;

    private FitCheck()
    {
    }

    /// <summary>What the distribution is called.</summary>
    public required string ModelName { get; init; }

    /// <summary>Number of missions.</summary>
    public required int Missions { get; init; }

    /// <summary>Number of landings.</summary>
    public required int Landings { get; init; }

    /// <summary>Anderson and Darling's test of the distances, or why it can't be made.</summary>
    public required Fit<FitTest> Distances { get; init; }

    /// <summary>Landings within the radius that holds half of them under the model; null when none can be placed.</summary>
    public required ModelledShare? Near { get; init; }

    /// <summary>Landings beyond the radius that holds 95 % of them under the model; null when none can be placed.</summary>
    public required ModelledShare? Far { get; init; }

    /// <summary>Whether the test speaks against the fit at <see cref="Level"/>; null when there is no test.</summary>
    public bool? FitsBadly => Distances.Value is { } test ? test.PValue < Level : null;

    /// <summary>The verdict in words, with its direction and its n.</summary>
    public string Reading => FitReading.Of(this);

    /// <summary>Checks a fitted model.</summary>
    /// <param name="sample">The misses that it was fitted to.</param>
    /// <param name="model">The fitted model.</param>
    /// <param name="refit">Fits the same kind of model to other misses, in the same way; null when it can't be fitted. Called from several threads.</param>
    /// <param name="draws">How often a landing of each mission is drawn.</param>
    /// <param name="replicates">Samples of the parametric bootstrap.</param>
    /// <param name="seed">Seed of both.</param>
    /// <remarks>
    /// <para>Each draw of one landing of each mission is fitted and its shares held within each distance are measured by A²; the same is done
    /// to samples of as many independent landings drawn from the model. Twice the median of the draws' p-values is the test's.</para>
    /// <para>Landings known only as beyond a distance take part in the data's fits and measures (<see cref="HeldShares.Radial(MissSample, IMissModel, int)"/>);
    /// the bootstrap's samples have none, which is right as long as they are few. With one in eight the test was seen to reject less often
    /// than its level, not more.</para>
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">No draws or no replicates.</exception>
    public static FitCheck Of(MissSample sample, IMissModel model, Func<MissSample, IMissModel?> refit, int draws = 25, int replicates = 499, int seed = 1) =>
        Of(sample, ModelUnderTest.Of(model), s => refit(s) is { } m ? ModelUnderTest.Of(m) : null, draws, replicates, seed);

    internal static FitCheck Of(MissSample sample, ModelUnderTest model, Func<MissSample, ModelUnderTest?> refit, int draws, int replicates, int seed) => new()
    {
        ModelName = model.Name,
        Missions = sample.Missions,
        Landings = sample.Landings,
        Distances = Test(sample, model, refit, draws, replicates, seed),
        Near = ModelledShare.Within(sample, model.RadiusHolding(0.5), 0.5),
        Far = ModelledShare.Within(sample, model.RadiusHolding(0.95), 0.95)?.Others(),
    };

    private static Fit<FitTest> Test(MissSample sample, ModelUnderTest model, Func<MissSample, ModelUnderTest?> refit, int draws, int replicates, int seed)
    {
        var n = Math.Min(sample.Missions, MostMissions);
        if (n < FewestMissions) return Fit<FitTest>.Refused($"too few missions ({n}); {FewestMissions} are needed");
        var tested = MissionDraws.Some(sample, n, seed);
        var name = "Anderson-Darling, distances" + (n < sample.Missions ? $", {n:#,0} of {sample.Missions:#,0} missions" : "");
        var law = ParametricBootstrap.Of(replicates, seed, "distances from the spot",
            random => Measure(MissSample.Of(Enumerable.Range(0, n).Select(_ => model.Draw(random)).ToList()), random));
        return law.Value is not { } known
            ? Fit<FitTest>.Refused(law.Reason!)
            : MissionDraws.Test(tested, (draw, d) => Measure(draw, SeedStream.For(seed, $"landings beyond {d}")) is { } statistic
                ? Fit<FitTest>.Made(known.Test(name, statistic, n))
                : Fit<FitTest>.Refused("the model can't be fitted to one landing of each mission"), draws, seed);

        double? Measure(MissSample independent, Random random) =>
            refit(independent) is { } fitted ? HeldShares.AndersonDarling(HeldShares.Radial(independent, fitted, random)) : null;
    }
}
