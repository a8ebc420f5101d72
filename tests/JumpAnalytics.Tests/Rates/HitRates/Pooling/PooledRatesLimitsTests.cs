using CsCheck;
namespace JumpAnalytics.Tests;

/// <summary>Counts from which little or nothing follows, very many of them, and what a result must keep whatever they are.</summary>
public sealed class PooledRatesLimitsTests
{
    private static PooledCount Count(string mission, string band, string terrain, int hits, int landings) =>
        new(mission, band, terrain, hits, landings);

    private static string Reason(params IReadOnlyList<PooledCount> counts)
    {
        var fit = PooledRates.Of(counts, new());
        Assert.False(fit.Success);
        return fit.Reason;
    }

    [Fact]
    public void What_can_not_be_pooled_has_a_reason()
    {
        Assert.Equal("no landing", Reason());
        Assert.Equal("no landing", Reason(Count("a", "0-5", "meadow", 0, 0)));
        Assert.StartsWith("a single mission", Reason(Count("a", "0-5", "meadow", 3, 5), Count("a", "5-10", "meadow", 1, 4)),
            StringComparison.Ordinal);
        Assert.StartsWith("each of the 9 landings is a hit", Reason(Count("a", "0-5", "meadow", 5, 5), Count("b", "5-10", "meadow", 4, 4)),
            StringComparison.Ordinal);
        Assert.StartsWith("none of the 9 landings is a hit", Reason(Count("a", "0-5", "meadow", 0, 5), Count("b", "5-10", "meadow", 0, 4)),
            StringComparison.Ordinal);
        Assert.StartsWith("in each mission of two or more landings all landings agree",
            Reason(Count("a", "0-5", "meadow", 5, 5), Count("b", "0-5", "meadow", 0, 4), Count("c", "0-5", "meadow", 0, 1)),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3, 2)]
    [InlineData(-1, 2)]
    [InlineData(0, -1)]
    public void Counts_that_can_not_be_are_an_error(int hits, int landings) =>
        Assert.Throws<ArgumentException>(() => PooledRates.Of([Count("a", "0-5", "meadow", hits, landings)], new()));

    [Fact]
    public void Options_that_can_not_be_are_an_error()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new PoolingOptions { Nodes = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new PoolingOptions { Nodes = 101 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new PoolingOptions { Confidence = 1 });
        Assert.Throws<ArgumentException>(() => PooledRates.Of(PoolingData.Invented, new() { Nodes = 8 }));
    }

    /// <summary>
    /// Every mission has two hits in four landings, less than chance would let them differ: the likelihood is highest without a spread.
    /// </summary>
    [Fact]
    public void Missions_that_differ_less_than_by_chance_have_a_spread_of_exactly_zero()
    {
        var fit = PoolingData.Fitted([.. Enumerable.Range(0, 30).Select(m => Count($"{m}", "0-5", "meadow", 2, 4))],
            new() { CellEffect = false });
        Assert.Equal(new PooledSpread(0, null), fit.BetweenMissions);
        Assert.Equal(["the spread between missions is estimated as zero"], fit.Warnings);
        Assert.All(fit.MissionEffects, m => Assert.Equal(new PooledEffect(0, 0), m.Effect));

        // Without a spread the model is a logistic regression: 60 hits in 120 landings, log-odds 0, standard error √(1/60 + 1/60).
        Close.Absolute(0, fit.FixedEffects[0].LogOdds, 1e-9);
        Close.Relative(Math.Sqrt(2 / 60.0), fit.FixedEffects[0].StandardError, 1e-6);
        var rate = fit.Cells[0].Rate.Value!;
        Close.Absolute(0.5, rate.Value, 1e-9);
        Close.Relative(1 / (1 + Math.Exp(1.959963984540054 * Math.Sqrt(2 / 60.0))), rate.Range!.Value.Low, 1e-6);
    }

    [Fact]
    public void One_landing_a_mission_tells_nothing_of_missions()
    {
        var fit = PoolingData.Fitted([.. Enumerable.Range(0, 40)
            .Select(m => Count($"{m}", m % 2 == 0 ? "0-5" : "5-10", "meadow", m % 3 == 0 ? 0 : 1, 1))], new() { CellEffect = false });
        Assert.Equal(0, fit.BetweenMissions.Sd);
        Assert.Contains(fit.Warnings, w => w.StartsWith("no mission has two landings", StringComparison.Ordinal));
        Assert.All(fit.Cells, c => Close.Absolute(c.Counted!.Value, c.Rate.Value!.Value, 1e-9));
    }

    [Fact]
    public void One_cell_has_a_rate_and_nothing_to_be_pooled_with()
    {
        var fit = PoolingData.Fitted([.. PoolingData.Herds.Select(c => c with { WindBand = "0-5" })], new());
        Assert.Contains(fit.Warnings, w => w.StartsWith("there is no effect of the cell", StringComparison.Ordinal));
        Assert.Null(fit.BetweenCells);
        Assert.Equal(0, Assert.Single(fit.Cells).Pull);
        Assert.True(fit.Cells[0].Rate.Success);
    }

    /// <summary>
    /// A terrain without a miss would have an effect without bound: it is held, and what the others say is hardly touched.
    /// </summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_terrain_without_a_miss_is_held_and_named(bool cellEffect)
    {
        PooledCount[] open = [.. Enumerable.Range(0, 6).Select(m => Count($"open {m}", m % 2 == 0 ? "0-5" : "10-15", "burnt", 3, 3))];
        var options = new PoolingOptions { CellEffect = cellEffect };
        var (with, without) =
            (PoolingData.Fitted([.. PoolingData.Invented, .. open], options), PoolingData.Fitted(PoolingData.Invented, options));
        Assert.Contains("terrain burnt: 18 hits in 18 landings",
            Assert.Single(with.Warnings, w => w.StartsWith("hits and misses part", StringComparison.Ordinal)), StringComparison.Ordinal);
        var rate = with.Cell("0-5", "burnt").Rate.Value!;
        Assert.InRange(rate.Value, 0.85, 0.999);
        Assert.InRange(rate.Range!.Value.Low, 0.3, rate.Value);
        foreach (var cell in without.Cells)
            Close.Absolute(cell.Rate.Value!.Value, with.Cell(cell.WindBand, cell.Terrain).Rate.Value!.Value,
                0.02, $"{cell.WindBand} {cell.Terrain}");
    }

    [Fact]
    public void A_cell_without_landings_has_the_rate_of_the_model_where_band_and_terrain_determine_it()
    {
        PooledCount[] counts = [.. PoolingData.Invented.Where(c => (c.WindBand, c.Terrain) != ("15+", "ridge lee"))];
        var cell = PoolingData.Fitted(counts, new()).Cell("15+", "ridge lee");
        Assert.Equal((0, 0, 0, null), (cell.Missions, cell.Landings, cell.Hits, cell.Counted));
        Close.Absolute(1, cell.Pull, 1e-12);
        Close.Absolute(cell.ModelRate.Value!.Value, cell.Rate.Value!.Value, 0.005);
        Assert.True(Width(cell.Rate.Value) > 1.1 * Width(cell.ModelRate.Value));

        // With a level for each cell nothing is known of it.
        var unknown = PoolingData.Fitted(counts, new() { CellEffect = false, Interaction = true });
        Assert.StartsWith("no landing tells how 15+ and ridge lee go together", unknown.Cell("15+", "ridge lee").Rate.Reason,
            StringComparison.Ordinal);
        Assert.Contains(unknown.Warnings, w => w.EndsWith("wind band 15+, terrain ridge lee", StringComparison.Ordinal));
    }

    /// <summary>
    /// Bands and terrains that never meet: their effects can't be told apart, and the cells there are have rates all the same.
    /// </summary>
    [Fact]
    public void Bands_and_terrains_that_never_meet_are_named()
    {
        PooledCount[] counts = [.. PoolingData.Invented.Where(c =>
            c.WindBand == "0-5" ? c.Terrain == "meadow" : c.WindBand == "5-10" && c.Terrain != "meadow")];
        var fit = PoolingData.Fitted(counts, new());
        Assert.Contains(fit.Warnings, w => w.Contains("left out: ", StringComparison.Ordinal));
        Assert.All(fit.Cells, c => Assert.Equal(c.Landings > 0, c.Rate.Success));
        Assert.Equal(3, fit.Cells.Count(c => c.Landings > 0));
    }

    /// <summary>The more a cell has landed, the less it is pulled.</summary>
    [Fact]
    public void Cells_with_few_landings_are_pulled_most()
    {
        var cells = PoolingData.Fitted(PoolingData.Invented, new()).Cells;
        Assert.True(cells.MinBy(c => c.Landings)!.Pull > 2 * cells.MaxBy(c => c.Landings)!.Pull);
    }

    /// <summary>
    /// Cells that differ by nothing but band and terrain: pooled rates lie nearer the model, and nearer the truth, than the counted ones.
    /// </summary>
    [Fact]
    public void Cells_that_do_not_differ_are_pulled_to_the_model()
    {
        var (counts, levels) = PoolingData.Made(110, 0.3, 7, 0.8, 0, 21);
        var cells = PoolingData.Fitted(counts, new()).Cells;
        double Distance(Func<PooledCell, double> rate, Func<PooledCell, double> from) =>
            Math.Sqrt(cells.Sum(c => Math.Pow(rate(c) - from(c), 2)));
        double Model(PooledCell c) => c.ModelRate.Value!.Value;
        double Truth(PooledCell c) => LogisticNormal.Mean(levels[(c.WindBand, c.Terrain)], 0.8).Success;
        Assert.True(Distance(c => c.Rate.Value!.Value, Model) < 0.7 * Distance(c => c.Counted!.Value, Model));
        Assert.True(Distance(c => c.Rate.Value!.Value, Truth) < Distance(c => c.Counted!.Value, Truth));
    }

    /// <summary>The likelihood does not know which name is the first: rates stay, contrasts turn.</summary>
    [Fact]
    public void Rates_do_not_depend_on_the_band_that_others_are_compared_with()
    {
        var (fit, turned) =
            (PoolingData.Fitted(PoolingData.Invented, new()), PoolingData.Fitted([.. PoolingData.Invented.Reverse()], new()));
        Close.Absolute(fit.LogLikelihood, turned.LogLikelihood, 1e-9);
        Assert.All(fit.Cells,
            c => Close.Absolute(c.Rate.Value!.Range!.Value.High, turned.Cell(c.WindBand, c.Terrain).Rate.Value!.Range!.Value.High, 1e-4));
    }

    /// <summary>
    /// A model without cell effects is one with a spread of zero: it can't be likelier, and is as likely only where the spread is zero.
    /// </summary>
    [Fact]
    public void Cell_effects_never_make_the_landings_less_likely()
    {
        var zeros = 0;
        for (var seed = 0; seed < 25; seed++)
        {
            var counts = PoolingData.Made(80, 0.3, 6, 0.8, 0.4, seed).Counts;
            var (with, without) =
                (PoolingData.Fitted(counts, new() { Nodes = 1 }), PoolingData.Fitted(counts, new() { Nodes = 1, CellEffect = false }));
            if (with.BetweenCells!.Sd == 0) Close.Absolute(without.LogLikelihood, with.LogLikelihood, 1e-9, $"seed {seed}");
            else Assert.True(with.LogLikelihood > without.LogLikelihood, $"seed {seed}");
            if (with.BetweenCells.Sd == 0) zeros++;
        }
        Assert.InRange(zeros, 1, 24); // both kinds were met
    }

    /// <summary>A million landings in two hundred thousand missions; a spread of 0.8 within five standard errors (1e-6).</summary>
    [Fact]
    public void A_million_landings_are_pooled()
    {
        var fit = PoolingData.Fitted(PoolingData.Made(200_000, 0, 9, 0.8, 0.3, 11).Counts,
            new() { CellEffect = false, Interaction = true });
        Assert.InRange(fit.Landings, 980_000, 1_020_000);
        Assert.InRange(fit.BetweenMissions.Sd, 0.8 - 5 * fit.BetweenMissions.StandardError!.Value,
            0.8 + 5 * fit.BetweenMissions.StandardError.Value);
        Assert.True(fit.BetweenMissions.StandardError < 0.005);
    }

    /// <summary>400 small and odd sets of counts under every kind of model: a result with sound numbers, or a reason.</summary>
    [Fact]
    public void Whatever_the_counts_there_are_sound_numbers_or_a_reason()
    {
        var count = Gen.Select(Gen.Int[0, 6], Gen.Int[0, 2], Gen.Int[0, 2], Gen.Int[0, 4], Gen.Int[0, 4],
            (m, b, t, n, k) => Count($"m{m}", $"b{b}", $"t{t}", Math.Min(n, k), n));
        var options = Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool,
            (cell, interaction, laplace) => new PoolingOptions { CellEffect = cell, Interaction = interaction, Nodes = laplace ? 1 : 9 });
        var made = 0;
        Cases.Each(Gen.Select(count.List[1, 25], options), 400, 20240612, given =>
        {
            var fit = PooledRates.Of(given.Item1, given.Item2);
            if (!fit.Success)
            {
                Assert.NotEmpty(fit.Reason);
                return;
            }
            made++;
            Assert.All(fit.Value.FixedEffects,
                e => Assert.True(double.IsFinite(e.LogOdds) && e.StandardError > 0 && double.IsFinite(e.StandardError), e.ToString()));
            Assert.All([fit.Value.BetweenMissions, .. fit.Value.BetweenCells is { } cells ? [cells] : Array.Empty<PooledSpread>()],
                s => Assert.True(s.Sd >= 0 && double.IsFinite(s.Sd) && s.StandardError is null == (s.Sd == 0)
                    && s.StandardError is null or > 0, s.ToString()));
            Assert.True(double.IsFinite(fit.Value.LogLikelihood) && fit.Value.LogLikelihood < 0);
            Assert.All(fit.Value.MissionEffects,
                m => Assert.True(double.IsFinite(m.Effect.LogOdds) && double.IsFinite(m.Effect.StandardError), m.ToString()));
            Assert.All(fit.Value.Cells, c =>
            {
                Assert.InRange(c.Pull, 0, 1);
                foreach (var rate in new[] { c.Rate, c.ModelRate }.Where(r => r.Success))
                {
                    var range = rate.Value!.Range!.Value;
                    Assert.True(range.Low >= 0 && range.Low <= rate.Value.Value && rate.Value.Value <= range.High && range.High <= 1,
                        rate.Value.ToString());
                }
                Assert.True(c.Rate.Success || c.Landings == 0);
            });
            Assert.Equal(given.Item1.Sum(c => c.Landings), fit.Value.Cells.Sum(c => c.Landings));
        });
        Assert.True(made > 200, $"{made}");
    }

    private static double Width(Estimate rate) => rate.Range!.Value.High - rate.Range.Value.Low;
}
