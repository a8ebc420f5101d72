namespace JumpAnalytics.Tests;

public sealed class ApprovedTests
{
    [Fact]
    public void A_change_is_shown_by_its_lines_below_their_heading()
    {
        string[] before = ["class A", "    int One", "    int Two", "class B", "    int Three", ""];
        string[] after = ["class A", "    int One", "class B", "    int Three", "    int Four", "class C", ""];
        Assert.Equal(["  class A", "-     int Two", "  class B", "+     int Four", "+ class C"], Approved.Changes(before, after));
    }

    [Theory]
    [InlineData("a b c", "a b c")]
    [InlineData("a b c", "")]
    [InlineData("", "a b")]
    [InlineData("a b c d", "b d e")]
    [InlineData("a a b", "a b b")]
    [InlineData("x a y", "y a x")]
    public void Lines_that_are_gone_and_lines_that_are_new_turn_one_text_into_the_other(string one, string other)
    {
        var (before, after) = (one.Split(' '), other.Split(' '));
        var changes = Approved.Changes(before, after).Where(c => c[0] != ' ').ToList();
        Assert.Equal(before.Except(after).Order(), changes.Where(c => c[0] == '-').Select(c => c[2..]).Except(after).Order());
        Assert.Equal(after.Except(before).Order(), changes.Where(c => c[0] == '+').Select(c => c[2..]).Except(before).Order());
        Assert.Equal(after.Length - before.Length, changes.Count(c => c[0] == '+') - changes.Count(c => c[0] == '-'));
        Assert.Equal(one == other, changes.Count == 0);
    }

    [Fact]
    public void What_differs_from_the_approved_text_fails_and_names_the_file()
    {
        if (Environment.GetEnvironmentVariable("JUMPANALYTICS_APPROVE") == "1") Assert.Skip("nothing fails while texts are approved");
        var failure = Assert.ThrowsAny<Exception>(() => Approved.Compare("public-surface/NoSuchAssembly.txt", "class A\n"));
        Assert.Contains("tests/reference/public-surface/NoSuchAssembly.txt", failure.Message, StringComparison.Ordinal);
        Assert.Contains("+ class A", failure.Message, StringComparison.Ordinal);
    }
}
