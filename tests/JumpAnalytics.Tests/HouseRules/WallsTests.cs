namespace JumpAnalytics.Tests;

/// <summary>Every arrow points down: a file uses its own room and the rooms below it, and nothing else.</summary>
public sealed class WallsTests(ITestOutputHelper output)
{
    public static TheoryData<string> Projects => [Walls.Statistics.Project, Walls.Trade.Project];

    private static Walls Of(string project) => project == Walls.Trade.Project ? Walls.Trade : Walls.Statistics;

    [Theory]
    [MemberData(nameof(Projects))]
    public void No_file_uses_a_room_above_its_own(string project)
    {
        var sources = CompiledSources.OfProject(project);
        Assert.Empty(sources.Uses.Unbound);
        Assert.Empty(Of(project).Empty(sources));
        var breaches = Of(project).Breaches(sources).ToList();
        Assert.True(breaches.Count == 0, $"{breaches.Count} uses point up:\n{string.Join('\n', breaches)}");
    }

    /// <summary>Read with a logger that shows details: each line says how many symbols a room uses of the rooms below it.</summary>
    [Theory]
    [MemberData(nameof(Projects))]
    public void Room_matrix(string project)
    {
        var lines = Of(project).Matrix(CompiledSources.OfProject(project)).ToList();
        Assert.Equal(Of(project).Rooms.Length + 1, lines.Count);
        output.WriteLine(project + "\n" + string.Join('\n', lines));
    }

    /// <summary>Ways to use a thing above, each of which a search for names would miss or could miss.</summary>
    [Theory]
    [InlineData("Thing? T() => null;", "Thing")]
    [InlineData("[Mark] void M() { }", "Mark..ctor")]
    [InlineData("int M(Low low) => low.Twice();", "Extras.Twice")]
    [InlineData("int M(Low low) => low.Part;", "Low.Part")]
    [InlineData("void M() { var made = Low.Make(); }", "Thing")]
    [InlineData("Low M() => Low.Make();", "Thing.op_Implicit")]
    [InlineData("object M() => Low.Make() + Low.Make();", "Thing.op_Addition")]
    [InlineData("void M() { foreach (var n in Low.Make()) { } }", "Thing.GetEnumerator")]
    [InlineData("void M() { var (a, b) = Low.Make(); }", "Thing.Deconstruct")]
    [InlineData("int M() => Low.Make()[1];", "Thing.this[]")]
    [InlineData("List<Thing> M() => [];", "Thing")]
    [InlineData("class Inner : Thing { }", "Thing")]
    [InlineData("bool M(object o) => o is Thing { Size: 3 };", "Thing.Size")]
    [InlineData("string M() => $\"{nameof(Thing)}\";", "Thing")]
    public void A_use_of_a_room_above_is_found(string member, string symbol)
    {
        var sources = CompiledSources.Of(
            ("Low/Low.cs", "partial class Low { public static Thing Make() => new(); }"),
            ("Low/User.cs", $"class User\n{{\n    {member}\n}}"),
            ("High/Low.cs", "partial class Low { public int Part => 1; }"),
            ("High/Extras.cs", "static class Extras { public static int Twice(this Low low) => 2; }"),
            ("High/Mark.cs", "class Mark : Attribute { }"),
            ("High/Thing.cs", """
                class Thing
                {
                    public int Size => 3;
                    public int this[int n] => n;
                    public static implicit operator Low(Thing thing) => new();
                    public static Thing operator +(Thing a, Thing b) => a;
                    public IEnumerator<int> GetEnumerator() => throw new NotSupportedException();
                    public void Deconstruct(out int a, out int b) => (a, b) = (1, 2);
                }
                """));
        Assert.Empty(sources.Uses.Unbound);
        Assert.Contains($"Low/User.cs:3: Low -> High: {symbol}", new Walls("made", "Low", "High").Breaches(sources));
        var turned = new Walls("made", "High", "Low").Breaches(sources);
        Assert.DoesNotContain(turned, b => b.StartsWith("Low/User.cs", StringComparison.Ordinal));
    }

    [Fact]
    public void A_folder_without_a_place_and_a_place_without_a_folder_are_found()
    {
        var sources = CompiledSources.Of(("Low/Low.cs", "class Low;"), ("Attic/Box.cs", "class Box;"));
        Assert.Equal(["Attic/: a folder without a place in the order"], new Walls("made", "Low").Breaches(sources));
        Assert.Equal(["Cellar"], new Walls("made", "Cellar", "Low + Attic").Empty(sources));
    }
}
