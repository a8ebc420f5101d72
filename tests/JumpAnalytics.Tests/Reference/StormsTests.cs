using System.Globalization;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics.Tests;

/// <summary>The whole way from the files to the figures, against R (tests/reference/storms-2005-2021).</summary>
public sealed class StormsTests
{
    /// <summary>The reference prints 12 digits; sums of 3,785 doubles lose fewer than three.</summary>
    private const double Tolerance = 1e-9;

    private static readonly Lazy<RateTable> _rates = new(() => RateTable.Of(Storms.Log.Landings, Storms.Options));

    [Fact]
    public void Every_row_of_the_record_is_accepted()
    {
        var intake = Storms.Log.Intake;
        Assert.Equal(2 * 3785, intake.RowsRead);
        Assert.Equal(2 * 3785, intake.RowsAccepted);
        Assert.Empty(intake.Quarantine);
        Assert.Empty(intake.SetAside);
        Assert.Equal(3785, Storms.Log.Landings.Count);
        Assert.Equal(16, Storms.Log.Seasons.Count); // 2005 to 2020
    }

    [Fact]
    public void Every_figure_of_every_cell_and_margin_agrees_with_R()
    {
        var compared = 0;
        var skipped = new List<string>();
        foreach (var (cell, quantity, expected) in Storms.Figures)
        {
            if (cell.StartsWith("glmer ", StringComparison.Ordinal) || cell.StartsWith("lmer ", StringComparison.Ordinal))
            {
                skipped.Add($"{cell}: {quantity}");
                continue;
            }
            var (band, terrain) = Names(cell);
            Close.Relative(expected, Figure(quantity, _rates.Value.Cell(band, terrain), LandingsOf(band, terrain)),
                Tolerance, $"{cell} {quantity}");
            compared++;
        }

        // 20 cells and margins of 20 figures each; what is left out is exactly the mixed models.
        Assert.Equal(20 * 20, compared);
        Assert.Equal(_rates.Value.Cells.Count * 20, compared);
        const string Glmer = "glmer hit~band+terrain+(1|mission), Laplace: ";
        string[] mixed =
        [
            .. new[] { "(Intercept)", "band5-10", "band10-15", "band15+", "terrain20N-30N", "terrainnorth of 30N", "sd_mission", "logLik" }
                .Select(q => Glmer + q),
            .. new[] { "downwind", "right" }
                .SelectMany(v => new[] { "mean", "var_between", "var_within" }.Select(q => $"lmer {v}~1+(1|mission), REML: {q}")),
        ];
        Assert.Equal(mixed.Order(StringComparer.Ordinal), skipped.Order(StringComparer.Ordinal));
        Assert.Equal(compared + skipped.Count, Storms.Figures.Count);
    }

    [Theory]
    [InlineData(0, "q50_type8")]
    [InlineData(1, "q85_type8")]
    [InlineData(2, "q95_type8")]
    public void The_distances_of_the_season_summary_agree_with_R(int index, string quantity)
    {
        var all = SeasonGlance.Of(Storms.Log.Landings, Storms.Options).Seasons[^1];
        Assert.Equal("all", all.Season);
        var expected = Storms.Figures.Single(f => f.Cell == "all" && f.Quantity == quantity).Value;
        Close.Relative(expected, all.MissQuantiles[index].Value!.Value / Storms.NauticalMile, Tolerance, quantity);
    }

    [Fact]
    public void Bias_and_its_interval_agree_with_R_in_every_season()
    {
        var seasons = SeasonGlance.Of(Storms.Log.Landings, Storms.Options).Seasons.ToDictionary(s => s.Season);
        var compared = 0;
        foreach (var row in ReferenceFiles.Rows("storms-2005-2021/bias.csv"))
        {
            var season = seasons[row["season"]];
            var bias = (row["axis"] == "downwind" ? season.BiasDownwind : season.BiasRight).Value!;
            Check("mean", bias.Value);
            Check("low", bias.Range!.Value.Low);
            Check("high", bias.Range.Value.High);
            Assert.Equal(row["missions"], season.Rate.Value!.Missions.ToString(CultureInfo.InvariantCulture));
            compared++;

            void Check(string column, double metres) =>
                Close.Relative(double.Parse(row[column], CultureInfo.InvariantCulture), metres / Storms.NauticalMile, Tolerance,
                    $"{row["season"]} {row["axis"]} {column}");
        }
        Assert.Equal(2 * 17, compared);
        Assert.Equal(17, seasons.Count);
    }

    private static (string Band, string Terrain) Names(string cell)
    {
        var (band, terrain) = ("all", "all");
        if (cell == "all") return (band, terrain);
        foreach (var part in cell.Split('|'))
        {
            if (part.StartsWith("band=", StringComparison.Ordinal)) band = part["band=".Length..];
            else if (part.StartsWith("terrain=", StringComparison.Ordinal)) terrain = part["terrain=".Length..];
            else throw new FormatException($"'{cell}' is neither a cell nor a margin.");
        }
        return (band, terrain);
    }

    private static List<Landing> LandingsOf(string band, string terrain) =>
        [.. Storms.Log.Landings.Where(l => (band == "all" || Storms.Options.Bands.LabelOf(l.Drop.WindSpeed) == band)
            && (terrain == "all" || l.Drop.Terrain == terrain))];

    private static double Figure(string quantity, CellRate cell, List<Landing> landings)
    {
        const double Nm = Storms.NauticalMile;
        return quantity switch
        {
            "landings" => cell.Landings,
            "missions" => cell.Missions,
            "hits" => cell.Hits,
            "hit_rate" => cell.Counted.Value!.Rate.Value,
            "mean_downwind" => cell.Model.Value!.MeanAlong / Nm,
            "mean_right" => cell.Model.Value!.MeanAcross / Nm,
            "var_downwind" => cell.Model.Value!.VarianceAlong / (Nm * Nm),
            "var_right" => cell.Model.Value!.VarianceAcross / (Nm * Nm),
            "cov" => cell.Model.Value!.Covariance / (Nm * Nm),
            "hit_rate_cluster_se" => cell.Counted.Value!.StandardError!.Value,
            "design_effect" => cell.Counted.Value!.DesignEffect!.Value,
            "icc_anova" => cell.Counted.Value!.IntraclassCorrelation!.Value,
            _ when quantity.Split('_') is [['q', .. var percent], "type7" or "type8"] =>
                landings.Select(l => l.MissDistance!.Value / Nm).QuantileCustom(
                    double.Parse(percent, CultureInfo.InvariantCulture) / 100,
                    quantity.EndsWith('7') ? QuantileDefinition.R7 : QuantileDefinition.R8),
            _ => throw new FormatException($"'{quantity}' is not compared with anything."),
        };
    }
}
