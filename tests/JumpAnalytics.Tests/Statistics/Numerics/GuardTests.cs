namespace JumpAnalytics.Tests;

public sealed class GuardTests
{
    [Fact]
    public void A_guard_says_what_was_found_and_what_to_try()
    {
        var confidence = 95.0;
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => Guard.Confidence(confidence));
        Assert.Equal("confidence", error.ParamName);
        Assert.StartsWith("confidence is 95; it must be above 0 and below 1, for instance 0.95.", error.Message, StringComparison.Ordinal);
        foreach (var act in (Action[])
            [
                () => Guard.Share(double.NaN), () => Guard.Share(1), () => Guard.Probability(-0.1), () => Guard.Finite(double.NaN), () => Guard.Positive(0),
                () => Guard.NotNegative(double.PositiveInfinity), () => Guard.AtLeast(double.NaN, 0), () => Guard.Above(1, 1), () => Guard.Within(3, 0, 2),
                () => Guard.Defined((TieRule)7),
            ])
            Assert.Throws<ArgumentOutOfRangeException>(act);
        Assert.Equal((0.5, 1.0, 0, 2), (Guard.Share(0.5), Guard.Probability(1), Guard.AtLeast(0, 0), Guard.Within(2, 0, 2)));
    }
}
