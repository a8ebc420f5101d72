namespace JumpAnalytics;

/// <summary>
/// How many missions are needed to tell one true rate from a benchmark: how often the interval would exclude the benchmark,
/// by formula and by simulation.
/// </summary>
/// <param name="Benchmark">The rate that it is compared with.</param>
/// <param name="TrueRate">The true rate supposed.</param>
/// <param name="Power">Wanted share of seasons in which the interval excludes the benchmark.</param>
/// <param name="Confidence">Coverage of the interval.</param>
/// <param name="Correlation">Intra-mission correlation supposed.</param>
/// <param name="LandingsPerMission">Mean number of landings of a mission.</param>
/// <param name="ByFormula">Missions by the formula.</param>
/// <param name="BySimulation">Missions by simulation; null when more than the search goes to.</param>
/// <param name="PowerAtFormula">
/// Share of simulated seasons of <paramref name="ByFormula"/> missions whose interval excludes the benchmark.
/// </param>
/// <param name="Seasons">Simulated seasons behind each share.</param>
[TypeFormatterSource]
public sealed record MissionsNeeded(
    double Benchmark, double TrueRate, double Power, double Confidence, double Correlation, double LandingsPerMission,
    int ByFormula, int? BySimulation, double PowerAtFormula, int Seasons)
{
    private const int MostMissions = 20000;

    /// <summary>Standard error of <see cref="PowerAtFormula"/> from the number of simulated seasons.</summary>
    public double PowerError => Math.Sqrt(PowerAtFormula * (1 - PowerAtFormula) / Seasons);

    /// <summary>Plans for missions as large as the recorded ones.</summary>
    /// <param name="landings">Landings of each recorded mission: their sizes are drawn from.</param>
    /// <param name="correlation">Intra-mission correlation, 0 to below 1.</param>
    /// <param name="trueRate">Rate supposed, between 0 and 1, other than the benchmark.</param>
    /// <param name="benchmark">Rate that it is compared with.</param>
    /// <param name="power">Wanted power, between 0 and 1.</param>
    /// <param name="confidence">Coverage of the interval.</param>
    /// <param name="seed">Seed of the simulation.</param>
    /// <param name="seasons">Seasons to simulate.</param>
    /// <remarks>
    /// Formula: landings = D · (z_c √(p₀q₀) + z_p √(p₁q₁))² / (p₁ − p₀)² (Fleiss, Levin and Paik 2003, section 4.5, for independent
    /// cases) with the design effect D = 1 + (Σn²/Σn − 1)·correlation of missions of unequal size (Donner, Birkett and Buck 1981,
    /// American Journal of Epidemiology 114:906-914). Simulation: sizes drawn from the recorded ones, hits beta-binomial, and the
    /// very interval of the rate table.
    /// </remarks>
    /// <exception cref="ArgumentException">A mission without landings, or rates that are the same.</exception>
    public static MissionsNeeded For(
        IReadOnlyList<int> landings, double correlation, double trueRate, double benchmark, double power,
        double confidence, int seed, int seasons = 1000)
    {
        if (landings.Count == 0 || landings.Any(l => l < 1) || trueRate == benchmark)
            throw new ArgumentException($"Planning needs missions with landings ({landings.Count} given) and a rate other than the "
                + $"benchmark ({trueRate} and {benchmark}).");
        var mean = landings.Average();
        var design = 1 + (landings.Sum(l => (double)l * l) / landings.Sum(l => (double)l) - 1) * correlation;
        var root = QuantileOf.Normal(TailShare.Middle(confidence)) * Math.Sqrt(benchmark * (1 - benchmark))
            + QuantileOf.Normal(TailShare.Below(power)) * Math.Sqrt(trueRate * (1 - trueRate));
        var formula = Math.Max(2, (int)Math.Ceiling(design * root * root / ((trueRate - benchmark) * (trueRate - benchmark)) / mean));
        var simulation = new SeasonSimulation(landings, trueRate, correlation);
        return new MissionsNeeded(benchmark, trueRate, power, confidence, correlation, mean, formula,
            Search(m => Told(m) >= power, formula), Told(Math.Min(formula, MostMissions)), seasons);

        double Told(int missions)
        {
            var random = SeedStream.For(seed, $"planning for {missions} missions");
            var told = 0;
            for (var s = 0; s < seasons; s++)
            {
                var (hits, sizes) = simulation.Draw(missions, random);
                if (ClusteredProportion.Of(hits, sizes, confidence).Rate.Range is { } range
                    && (trueRate > benchmark ? range.Low > benchmark : range.High < benchmark)) told++;
            }
            return (double)told / seasons;
        }
    }

    /// <summary>The least number of missions that will do, to one in fifty; null when more than <see cref="MostMissions"/>.</summary>
    private static int? Search(Func<int, bool> enough, int guess)
    {
        var (low, high) = (1, Math.Min(guess, MostMissions));
        if (enough(high))
        {
            while (high > 2 && enough(high * 4 / 5)) high = high * 4 / 5;
            low = high * 4 / 5;
        }
        else
        {
            do
            {
                if (high == MostMissions) return null;
                (low, high) = (high, Math.Min(MostMissions, high * 5 / 4 + 1));
            }
            while (!enough(high));
        }
        return Math.Max(2, Roots.First(n => !enough(n), low, high, to => Math.Max(1, to / 50)));
    }
}
