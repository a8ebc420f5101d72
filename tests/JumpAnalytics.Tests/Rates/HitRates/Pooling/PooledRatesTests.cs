using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Pooled rates against lme4.</summary>
public sealed class PooledRatesTests
{
    private static readonly PoolingOptions _laplace = new() { CellEffect = false, Nodes = 1 };

    /// <summary>
    /// tests/reference/pooling/reference.csv: R 4.2.2, lme4 1.1-31 with a tight inner tolerance and a polished end of its search, which
    /// leave its figures sure to about 1e-6; its standard errors come from a curvature by differences of values, sure to about 1e-4 of
    /// themselves. The rows "direct" are the likelihood at its estimates in plain R: Laplace's formula mission by mission, or integrate().
    /// </summary>
    [Theory]
    [InlineData("cells", 1, true, false)]
    [InlineData("additive", 1, false, false)]
    [InlineData("additive 7", 7, false, false)]
    [InlineData("additive 25", 25, false, false)]
    [InlineData("interaction", 1, false, true)]
    [InlineData("storms", 1, false, false)]
    public void A_model_agrees_with_lme4(string model, int nodes, bool cellEffect, bool interaction)
    {
        var counts = model == "storms" ? PooledCount.Of(Storms.Log.Landings, Storms.Options.Bands) : PoolingData.Invented;
        var fit = PoolingData.Fitted(counts, new() { Nodes = nodes, CellEffect = cellEffect, Interaction = interaction });
        Assert.All(fit.Warnings, w => Assert.StartsWith("with 1 node of quadrature the log-likelihood is ", w, StringComparison.Ordinal));
        if (nodes > 1) Assert.Empty(fit.Warnings);
        var found = Figures(fit);
        var compared = 0;
        foreach (var row in ReferenceFiles.Rows("pooling/reference.csv").Where(r => r["model"] == model))
        {
            var (quantity, expected) = (row["quantity"], double.Parse(row["value"], CultureInfo.InvariantCulture));
            if (quantity.StartsWith("se ", StringComparison.Ordinal))
                Close.Relative(expected, found[quantity], 2e-4, $"{model} {quantity}");
            else Close.Absolute(expected, found[quantity], quantity == "direct" ? 1e-8 : 2e-6, $"{model} {quantity}");
            compared++;
        }

        // Two figures of each fixed effect, cell and each of 20 missions, one of each spread and the likelihood, and this once more but for
        // seven nodes and cell effects.
        Assert.Equal(2 * (fit.FixedEffects.Count + 20 + (cellEffect ? 12 : 0)) + (cellEffect || nodes != 7 ? 3 : 2), compared);
        Assert.Equal(fit.FixedEffects.Count + (cellEffect ? 2 : 1), fit.FreeParameters);
    }

    /// <summary>
    /// The rows of the storms record's own reference.csv, made with lme4's default inner tolerance: it stops 7e-4 below the top.
    /// </summary>
    [Fact]
    public void The_storms_agree_with_the_reference_of_their_record()
    {
        var fit = PoolingData.Fitted(PooledCount.Of(Storms.Log.Landings, Storms.Options.Bands), _laplace);
        Assert.Equal((3785, 232, 1485), (fit.Landings, fit.Missions, fit.Hits));
        var found = Figures(fit);
        var expected = Storms.Figures.Where(f => f.Cell.StartsWith("glmer ", StringComparison.Ordinal))
            .ToDictionary(f => f.Quantity, f => f.Value);
        Assert.Equal(8, expected.Count);
        var south = found["terrainsouth of 20N"]; // the reference compares with the south, the library with the first in the alphabet
        Close.Absolute(expected["(Intercept)"], found["(Intercept)"] + south, 1e-3, "intercept");
        Close.Absolute(expected["terrain20N-30N"], -south, 1e-3, "20N-30N");
        Close.Absolute(expected["terrainnorth of 30N"], found["terrainnorth of 30N"] - south, 1e-3, "north of 30N");
        foreach (var band in new[] { "band5-10", "band10-15", "band15+" }) Close.Absolute(expected[band], found[band], 1e-3, band);
        Close.Absolute(expected["sd_mission"], fit.BetweenMissions.Sd, 1e-3, "sd");
        Assert.InRange(fit.LogLikelihood - expected["logLik"], 0, 1e-3);
    }

    // Herds of cbpp, incidence ~ period + (1|herd), lme4 1.1-31: fixed effects, their standard errors, variance between herds. The
    // log-likelihood for 25 nodes is that of the counts by integration (lme4's own leaves constants out).
    [Theory]
    [InlineData(1, new[] { -1.39853205917369, -.992332794161597, -1.12867213230629, -1.5803139390309 },
        new[] { .232471763090414, .306642105716322, .326637381794957, .427435736636922 }, .412499687849033, -92.0262818714973)]
    [InlineData(25, new[] { -1.39923046772884, -.991403652643108, -1.12781946612771, -1.57947070270904 },
        new[] { .233511600167877, .306767988163, .32676838597806, .42759445270847 }, .419280171600662, -91.9833690373)]
    public void The_herds_agree_with_lme4(int nodes, double[] effects, double[] errors, double variance, double logLikelihood)
    {
        var fit = PoolingData.Fitted(PoolingData.Herds, _laplace with { Nodes = nodes });
        Agree(fit, effects, errors, 1e-6, 1e-5);
        Close.Absolute(variance, fit.BetweenMissions.Sd * fit.BetweenMissions.Sd, 1e-6, "variance");
        Close.Absolute(logLikelihood, fit.LogLikelihood + PoolingData.LogCoefficients(PoolingData.Herds), 1e-7, "log-likelihood");
    }

    // The same with an intercept alone, lme4 1.1-31.
    [Theory]
    [InlineData(1, -2.04616225709885, .242364554166179, .659342953254151, -104.831313593857)]
    [InlineData(25, -2.04650394642839, .243824058237557, .669762203313417, -104.758871926)]
    public void The_herds_of_one_cell_agree_with_lme4(int nodes, double effect, double error, double variance, double logLikelihood)
    {
        var fit = PoolingData.Fitted([.. PoolingData.Herds.Select(c => c with { WindBand = "all" })], _laplace with { Nodes = nodes });
        Agree(fit, [effect], [error], 1e-6, 1e-5);
        Close.Absolute(variance, fit.BetweenMissions.Sd * fit.BetweenMissions.Sd, 2e-6, "variance");
        Close.Absolute(logLikelihood, fit.LogLikelihood + PoolingData.LogCoefficients(PoolingData.Herds), 1e-7, "log-likelihood");
    }

    // Conditional modes of the herds for 25 nodes, lme4 1.1-31, five decimals.
    [Fact]
    public void The_modes_of_the_herds_agree_with_lme4()
    {
        double[] modes = [.59302, -.30026, .40786, .03969, -.19079, -.40240, .89334, .60233, -.23951, -.54370,
            -.08478, -.06515, -.69381, .97593, -.53361];
        var fit = PoolingData.Fitted(PoolingData.Herds, _laplace with { Nodes = 25 });
        Assert.Equal(modes.Length, fit.MissionEffects.Count);
        for (var h = 0; h < modes.Length; h++)
        {
            Assert.Equal($"{h + 1}", fit.MissionEffects[h].Mission);
            Close.Absolute(modes[h], fit.MissionEffects[h].Effect.LogOdds, 6e-6, $"herd {h + 1}");
        }
    }

    // Seeds by plate (Crowder 1978), seed * root + (1|plate), lme4 1.1-31, in contrasts to seed O75 and root bean. For 25 nodes the
    // record's usual figures are -.548, .097, 1.337, -.811 and a spread of .236.
    [Theory]
    [InlineData(1, new[] { -.45106552599721 - .0974261180964445, .0974261180964445, .526779476912174 + .810029245856851,
        -.810029245856851 }, .2345839864, -53.7695714554316)]
    [InlineData(25, new[] { -.451442741112149 - .0969890535089196, .0969890535089196, .5265826210484 + .81045673780267, -.81045673780267 },
        .2362421608, -53.7574206951)]
    public void The_seeds_agree_with_lme4(int nodes, double[] effects, double sd, double logLikelihood)
    {
        var fit = PoolingData.Fitted(PoolingData.Seeds, _laplace with { Nodes = nodes, Interaction = true });
        Agree(fit, effects, null, 1e-6, 0);
        Close.Absolute(sd, fit.BetweenMissions.Sd, 1e-6, "spread");
        Close.Absolute(logLikelihood, fit.LogLikelihood + PoolingData.LogCoefficients(PoolingData.Seeds), 1e-7, "log-likelihood");
    }

    /// <summary>The likelihood is that of landings: it does not matter how they are gathered, nor in which order they come.</summary>
    [Fact]
    public void Landings_one_by_one_and_missions_in_another_order_give_the_same_bytes()
    {
        var fit = PoolingData.Fitted(PoolingData.Invented, new());
        var single = PoolingData.Fitted([.. PoolingData.OneByOne(PoolingData.Invented)], new());
        PooledCount[] turned = [.. PoolingData.Invented.GroupBy(c => (c.WindBand, c.Terrain)).SelectMany(g => g.Reverse())];
        Assert.All([single, PoolingData.Fitted(turned, new()), PoolingData.Fitted(PoolingData.Invented, new())], other =>
        {
            Assert.Equal(fit.FixedEffects, other.FixedEffects);
            Assert.Equal((fit.BetweenMissions, fit.BetweenCells, fit.LogLikelihood),
                (other.BetweenMissions, other.BetweenCells, other.LogLikelihood));
            Assert.Equal(fit.Cells, other.Cells);
            Assert.Equal(fit.MissionEffects.OrderBy(m => m.Mission, StringComparer.Ordinal),
                other.MissionEffects.OrderBy(m => m.Mission, StringComparer.Ordinal));
        });
    }

    private static void Agree(PooledRates fit, double[] effects, double[]? errors, double tolerance, double relative)
    {
        Assert.Equal(effects.Length, fit.FixedEffects.Count);
        for (var k = 0; k < effects.Length; k++)
        {
            Close.Absolute(effects[k], fit.FixedEffects[k].LogOdds, tolerance, fit.FixedEffects[k].Name);
            if (errors is not null)
                Close.Relative(errors[k], fit.FixedEffects[k].StandardError, relative, "standard error of " + fit.FixedEffects[k].Name);
        }
    }

    /// <summary>What a fit says, by the names of lme4.</summary>
    private static Dictionary<string, double> Figures(PooledRates fit)
    {
        var figures = new Dictionary<string, double> { ["logLik"] = fit.LogLikelihood, ["direct"] = fit.LogLikelihood,
            ["sd mission"] = fit.BetweenMissions.Sd };
        foreach (var effect in fit.FixedEffects)
        {
            var name = effect.Name == "intercept" ? "(Intercept)" : effect.Name.Replace("wind band ", "band", StringComparison.Ordinal)
                .Replace(", terrain ", ":terrain", StringComparison.Ordinal);
            if (name.StartsWith("terrain ", StringComparison.Ordinal)) name = "terrain" + name["terrain ".Length..];
            (figures[name], figures["se " + name]) = (effect.LogOdds, effect.StandardError);
        }
        foreach (var mission in fit.MissionEffects)
            (figures["mission " + mission.Mission], figures["se mission " + mission.Mission]) =
                (mission.Effect.LogOdds, mission.Effect.StandardError);
        if (fit.BetweenCells is not { } cells) return figures;
        figures["sd cell"] = cells.Sd;
        foreach (var cell in fit.Cells)
            (figures[$"cell {cell.WindBand}.{cell.Terrain}"], figures[$"se cell {cell.WindBand}.{cell.Terrain}"]) =
                (cell.Effect!.LogOdds, cell.Effect.StandardError);
        return figures;
    }
}
