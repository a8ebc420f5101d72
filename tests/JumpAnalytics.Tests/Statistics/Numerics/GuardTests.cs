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
                () => Guard.Share(double.NaN), () => Guard.Share(1), () => Guard.Probability(-0.1),
                () => Guard.Finite(double.NaN), () => Guard.Positive(0),
                () => Guard.NotNegative(double.PositiveInfinity), () => Guard.AtLeast(double.NaN, 0),
                () => Guard.Above(1, 1), () => Guard.Within(3, 0, 2),
                () => Guard.Defined((TieRule)7),
            ])
            Assert.Throws<ArgumentOutOfRangeException>(act);
        Assert.Equal((0.5, 1.0, 0, 2), (Guard.Share(0.5), Guard.Probability(1), Guard.AtLeast(0, 0), Guard.Within(2, 0, 2)));
    }

    [Fact]
    public void A_hint_ends_the_message()
    {
        Says("x is 85; it must be above 0 and below 1, for instance 0.85.", () => Guard.Share(85, "x", "for instance 0.85"));
        Says("x is -1.5; it must be a finite number above zero, metres.", () => Guard.Positive(-1.5, "x", "metres"));
        Says("x is -1; it must be a finite number of zero or more, or null.", () => Guard.NotNegative(-1, "x", "or null"));
        Says("x is 9; it must be 10 or more, for instance 20.", () => Guard.AtLeast(9, 10, "x", "for instance 20"));
        Says("x is 17; it must be from 1 to 16, jumpers.", () => Guard.Within(17, 1, 16, "x", "jumpers"));
        Says("x is NaN; it must be a finite number, radians.", () => Guard.Finite(double.NaN, "x", "radians"));
    }

    [Fact]
    public void Neither_end_lies_between()
    {
        Assert.Equal(2, Guard.Between(2, 1, 3));
        Says("x is 1; it must be above 1 and below 3.", () => Guard.Between(1, 1, 3, "x"));
        Says("x is 3; it must be above 1 and below 3.", () => Guard.Between(3, 1, 3, "x"));
        Says("x is NaN; it must be above 1 and below 3.", () => Guard.Between(double.NaN, 1, 3, "x"));
    }

    private static void Says(string message, Func<object> check) =>
        Assert.StartsWith(message, Assert.Throws<ArgumentOutOfRangeException>("x", check).Message, StringComparison.Ordinal);
}
