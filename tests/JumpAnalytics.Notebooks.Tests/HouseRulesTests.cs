using JumpAnalytics.Tests;

namespace JumpAnalytics.Notebooks.Tests;

/// <summary>The rules of the house for the project that the tests of the trade can't load.</summary>
public sealed class HouseRulesTests
{
    private static CompiledSources Sources => CompiledSources.OfProject(Walls.Notebooks.Project);

    [Fact]
    public void No_file_uses_a_room_above_its_own()
    {
        Assert.Empty(Sources.Uses.Unbound);
        Assert.Empty(Walls.Notebooks.Empty(Sources));
        Assert.Empty(Walls.Notebooks.Breaches(Sources));
    }

    [Fact]
    public void The_PublicSurface_is_what_was_approved() =>
        Approved.Compare($"public-surface/{Walls.Notebooks.Project}.txt", PublicSurface.Of(Sources));
}
