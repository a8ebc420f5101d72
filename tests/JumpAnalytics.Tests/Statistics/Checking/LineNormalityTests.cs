namespace JumpAnalytics.Tests;

public sealed class LineNormalityTests
{
    // R 4.2.2 with nortest 1.0-4: A², p, W², p, Lilliefors' D, p.
    public static TheoryData<double[], double[]> Published => new()
    {
        { CheckData.SetosaColumn(0), [0.407985975495869, 0.335243895123022, 0.0717526894664901, 0.259687073703501, 0.114859906696081, 0.0969324809268514] },
        { CheckData.SetosaColumn(1), [0.490955958295551, 0.210178698092421, 0.0754103875426183, 0.23244366197107, 0.104677542749337, 0.186328379062209] },
        { CheckData.SetosaColumn(2), [1.00732426698138, 0.0107906659908675, 0.189745330700005, 0.00687439319354726, 0.153397725429228, 0.00488623301513508] },
        { CheckData.SetosaColumn(3), [4.71483058741412, 7.43722268828776e-12, 0.976885678727523, 1.71777290432666e-09, 0.348760213529994, 5.83830796932036e-17] },
        { CheckData.Rain, [0.998943794239977, 0.0116317801274504, 0.174081879706674, 0.0111307111272175, 0.109086398258072, 0.0381216621465793] },
        { CheckData.NewHaven, [0.448461075659388, 0.269462358966728, 0.0783171275260185, 0.213724389007021, 0.0867704045025141, 0.316184058872903] },
    };

    [Theory]
    [MemberData(nameof(Published))]
    public void Statistics_and_p_values_are_those_of_nortest(double[] values, double[] expected)
    {
        var tests = All(values).Select(t => t.Value!).ToList();
        for (var i = 0; i < 3; i++)
        {
            Close.Relative(expected[2 * i], tests[i].Statistic, 1e-11, tests[i].Name);
            Close.Relative(expected[2 * i + 1], tests[i].PValue, 1e-9, tests[i].Name);
        }
    }

    private static Fit<FitTest>[] All(double[] values) => [NormalityTests.AndersonDarling(values), NormalityTests.CramerVonMises(values), NormalityTests.Lilliefors(values)];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(7)]
    public void Too_few_values_are_refused(int count) =>
        Assert.All(All(CheckData.NewHaven[..count]), t => Assert.Equal($"{count} point{(count == 1 ? "" : "s")}; a test of normality needs 8", t.Reason));

    [Fact]
    public void Values_that_are_all_the_same_are_refused() =>
        Assert.All(All([.. Enumerable.Repeat(0.1, 50)]), t => Assert.Equal("all values are the same", t.Reason));

    [Fact]
    public void A_value_that_is_no_number_is_an_error() =>
        Assert.Throws<ArgumentException>(() => NormalityTests.Lilliefors([.. CheckData.Rain, double.PositiveInfinity]));

    /// <summary>A value 40 standard deviations off has a probability below the rounding of 1, and still a finite statistic.</summary>
    [Fact]
    public void One_value_far_off_gives_a_finite_statistic() => Assert.All(All([.. Enumerable.Range(0, 2000).Select(i => i / 2000.0), 1e6]), t =>
    {
        Assert.True(double.IsFinite(t.Value!.Statistic));
        Assert.InRange(t.Value.PValue, 0, 1e-9);
    });

    [Fact, Trait("Category", "Long")]
    public void A_million_normal_quantiles_are_normal()
    {
        var values = Enumerable.Range(0, 1_000_000).Select(i => MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (i + 0.5) / 1e6)).ToArray();
        Assert.All(All(values), t => Assert.InRange(t.Value!.PValue, 0.99, 1));
    }
}
