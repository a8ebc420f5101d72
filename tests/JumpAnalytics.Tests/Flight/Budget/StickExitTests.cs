namespace JumpAnalytics.Tests;

public sealed class StickExitTests
{
    private static Drop Pass(double headingDegrees, double groundSpeedKt, double spacing) => Made.Drop() with
    {
        ActualExit = new LocalVector(100, -200),
        RunHeading = Bearing.FromDegrees(headingDegrees),
        GroundSpeed = MeasureUnit.Speed("kt").ToSi(groundSpeedKt),
        ExitSpacing = spacing,
    };

    /// <summary>
    /// Six jumpers one second apart at 90 kn: five gaps of 90 · 1852/3600 m = 46.3 m are 231.5 m, which is 759.5 ft. The trade rounds it to
    /// 760 ft (common practice, no source).
    /// </summary>
    [Fact]
    public void Six_jumpers_at_90_kn_smear_over_760_feet()
    {
        var pass = Pass(40, 90, 1);
        var (first, last) = (StickExit.Of(pass, 1).Vector!.Value, StickExit.Of(pass, 6).Vector!.Value);
        Close.Relative(231.5, (last - first).Length, 1e-12);
        var feet = MeasureUnit.Distance("ft").FromSi((last - first).Length);
        Close.Relative(231.5 / 0.3048, feet, 1e-12);
        Assert.Equal(760, Math.Round(feet / 10) * 10);
        Close.Absolute(40, (last - first).Direction!.Value.Degrees, 1e-9);
    }

    [Theory]
    [InlineData(1, -2)]
    [InlineData(2, -1)]
    [InlineData(3, 0)]
    [InlineData(6, 3)]
    public void With_the_third_jumper_recorded_the_others_lie_before_and_after_on_the_run(int order, int gaps)
    {
        var exit = StickExit.Of(Pass(90, 90, 1), order, referenceOrder: 3).Vector!.Value; // flown to the east: 46.3 m a second
        Close.Absolute(new LocalVector(100 + gaps * 46.3, -200), exit, 1e-9);
    }

    [Fact]
    public void No_spacing_between_exits_is_no_smear() =>
        Assert.Equal(new LocalVector(100, -200), StickExit.Of(Pass(90, 90, 0), 6).Vector);

    [Fact]
    public void A_reference_below_one_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StickExit.Of(Pass(0, 90, 1), 1, referenceOrder: 0));
}
