namespace JumpAnalytics.Tests;

public sealed class BrierDecompositionTests
{
    /// <summary>
    /// Forecasts of more than 0.2 mm of rain in 24 hours, 2003, of the Finnish Meteorological Institute (record pop of the R package
    /// verification), by forecast: how many, and how often it rained.
    /// </summary>
    private static readonly (double Forecast, int Days, int Rain)[] _pop =
    [
        (0, 46, 1), (.1, 55, 1), (.2, 59, 5), (.3, 41, 5), (.4, 19, 4), (.5, 22, 8), (.6, 22, 6), (.7, 34, 16),
        (.8, 24, 16), (.9, 11, 8), (1, 13, 11),
    ];

    private static (IReadOnlyList<double> Forecasts, IReadOnlyList<bool> Rain) Pop()
    {
        var days = _pop.SelectMany(p => Enumerable.Range(0, p.Days).Select(i => (p.Forecast, Rain: i < p.Rain))).ToList();
        return ([.. days.Select(d => d.Forecast)], [.. days.Select(d => d.Rain)]);
    }

    // Computed with base R 4.2.2 and by the R package verification's definitions.
    [Fact]
    public void Murphys_parts_agree_on_the_Finnish_forecasts()
    {
        var (forecasts, rain) = Pop();
        var parts = BrierDecomposition.Murphy(forecasts, rain).Value!;
        Assert.Equal(346, parts.Forecasts);
        Close.Absolute(.144479768786, parts.Score, 1e-12);
        Close.Absolute(.0253552549873, parts.Miscalibration, 1e-12);
        Close.Absolute(.0601748279767, parts.Discrimination, 1e-12);
        Close.Absolute(.179299341776, parts.Uncertainty, 1e-12);
        Close.Absolute((.0601748279767 - .0253552549873) / .179299341776, parts.Skill!.Value, 1e-11);
        Close.Absolute(0, parts.Remainder, 1e-15);
    }

    // Isotonic regression in scikit-learn 1.2.1.
    [Fact]
    public void Isotonic_parts_agree_on_the_Finnish_forecasts()
    {
        var (forecasts, rain) = Pop();
        var parts = BrierDecomposition.Corp(forecasts, rain).Value!;
        Close.Absolute(.0250915957990, parts.Miscalibration, 1e-12);
        Close.Absolute(.0599111687884, parts.Discrimination, 1e-12);
        Close.Absolute(.179299341776, parts.Uncertainty, 1e-12);
        Assert.Equal(9, ReliabilityDiagram.Of(forecasts, rain).Value!.Steps.Count);
    }

    // The isotonic parts of the published record: Dimitriadis, Gneiting and Jordan (2021), printed .232 .018 .030 .244 for the processed
    // ensemble; more digits by scikit-learn 1.2.1.
    [Fact]
    public void Isotonic_parts_agree_on_the_forecasts_at_Niamey()
    {
        Agrees(Niamey.Emos, .232025179368, .018282943343, .030468539022);
        Agrees(Niamey.Ens, .266167674299, .066072228280, .044115329028);

        static void Agrees(IReadOnlyList<double> forecasts, double score, double miscalibration, double discrimination)
        {
            var parts = BrierDecomposition.Corp(forecasts, Niamey.Rain).Value!;
            Close.Absolute(score, parts.Score, 1e-12);
            Close.Absolute(miscalibration, parts.Miscalibration, 1e-12);
            Close.Absolute(discrimination, parts.Discrimination, 1e-12);
            Close.Absolute(.244210775047, parts.Uncertainty, 1e-12);
        }
    }

    // Wilks (1995, Statistical Methods in the Atmospheric Sciences), table 7.3, as in the R package verification with two slips of its
    // example mended (shares .0245 and .0203, so that they add up to 1). The parts in numpy 1.24.2; the overall rate is that of the table's
    // own rows (.1615; printed .162).
    [Fact]
    public void Murphys_parts_agree_on_the_table_of_Wilks()
    {
        double[] forecast = [0, .05, .1, .2, .3, .4, .5, .6, .7, .8, .9, 1];
        double[] rate = [.006, .019, .059, .15, .277, .377, .511, .587, .723, .779, .934, .933];
        double[] share = [.4112, .0671, .1833, .0986, .0616, .0366, .0303, .0275, .0245, .022, .017, .0203];
        ForecastTally[] tallies = [.. forecast.Select((f, i) => new ForecastTally(f, share[i], share[i] * rate[i]))];
        var parts = BrierDecomposition.OfGroups(tallies, tallies);
        Close.Absolute(.0008276164, parts.Miscalibration, 1e-12);
        Close.Absolute(.06278662818844, parts.Discrimination, 1e-12);
        Close.Absolute(.13542005178844, parts.Uncertainty, 1e-12);
        Close.Absolute(0, parts.Remainder, 1e-15);
    }

    /// <summary>Two bins, by hand: forecasts .2 .4 (one hit) and .6 .9 (one hit): means .3 and .75, rates .5 and .5.</summary>
    [Fact]
    public void Bins_take_the_mean_of_their_forecasts_and_leave_a_remainder()
    {
        var parts = BrierDecomposition.Murphy([.2, .4, .6, .9], [false, true, false, true], bins: 2).Value!;
        Close.Absolute((.04 + .36 + .36 + .01) / 4, parts.Score, 1e-15);
        Close.Absolute((.04 + .0625) / 2, parts.Miscalibration, 1e-15);
        Close.Absolute(0, parts.Discrimination, 1e-15);
        Close.Absolute(.25, parts.Uncertainty, 1e-15);
        Close.Absolute(.1925 - .05125 - .25, parts.Remainder, 1e-15);
        Assert.Equal(parts, BrierDecomposition.Murphy([.9, .2, .4, .6], [true, false, true, false], bins: 2).Value);
        Assert.Equal(0, BrierDecomposition.Murphy([1, 0], [true, false], bins: 5).Value!.Score);
        // 0.29 · 100 is 28.999999999999996.
        Assert.Equal(BrierDecomposition.Murphy([.285, .29], [true, false]).Value,
            BrierDecomposition.Murphy([.285, .29], [true, false], bins: 100).Value);
    }

    [Fact]
    public void Degenerate_forecasts_have_parts_or_a_reason()
    {
        var all = BrierDecomposition.Corp([.8, .9], [true, true]).Value!;
        Assert.Equal((0, 0), (all.Discrimination, all.Uncertainty));
        Close.Absolute(.025, all.Miscalibration, 1e-15);
        Assert.Null(all.Skill);
        Assert.Equal("no forecast", BrierDecomposition.Corp([], []).Reason);
        Assert.Equal("no forecast", BrierDecomposition.Murphy([], []).Reason);
        Assert.Throws<ArgumentException>(() => BrierDecomposition.Corp([.5], []));
        Assert.Throws<ArgumentOutOfRangeException>(() => BrierDecomposition.Murphy([1.5], [true]));
        Assert.Throws<ArgumentOutOfRangeException>(() => BrierDecomposition.Murphy([.5], [true], bins: 0));
    }
}
