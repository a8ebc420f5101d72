namespace JumpAnalytics.Tests;

public sealed class PublicSurfaceTests
{
    [Theory]
    [InlineData("JumpAnalytics.Statistics")]
    [InlineData("JumpAnalytics")]
    public void What_a_user_can_name_is_what_was_approved(string project) =>
        Approved.Compare($"public-surface/{project}.txt", PublicSurface.Of(CompiledSources.OfProject(project)));

    [Fact]
    public void The_surface_is_sorted_and_holds_what_can_be_named()
    {
        var sources = CompiledSources.Of(("A.cs", """
            #nullable enable
            public sealed record Two(int B, string? A) { internal int Hidden => 1; public required int Wanted { get; init; } }
            public class One : IDisposable
            {
                public const int Most = 3;
                protected One(int n = 2) { }
                public void Dispose() { }
                public static T? Of<T>(in T item, params IEnumerable<int>[] others) where T : class => null;
                public int Size { get; private set; }
                public override string ToString() => "";
                public enum Kind { Late = 2, Early = 1 }
                class Secret;
            }
            public static class Extras { public static int Twice(this One one) => 2; }
            internal class Unseen;
            """));
        Assert.Equal("""
            static class Extras
                static int Twice(this One one)
            class One : IDisposable
                One(int n = 2)
                void Dispose()
                const int Most = 3
                static T? Of<T>(in T item, params IEnumerable<int>[] others) where T : class
                int Size { get; }
            enum One.Kind
                Late = 2
                Early = 1
            sealed record Two
                Two(int B, string? A)
                string? A { get; init; }
                int B { get; init; }
                required int Wanted { get; init; }

            """, PublicSurface.Of(sources), ignoreLineEndingDifferences: true);
    }
}
