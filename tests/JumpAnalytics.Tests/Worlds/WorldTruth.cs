using System.Collections.Concurrent;

namespace JumpAnalytics.Tests.Worlds;

/// <summary>
/// What is true of a world: shares and radii of a great many landings, each of a mission of its own, in the world's mix of conditions. The
/// Monte Carlo error of a share of all is 0.06 points, of one of a sixteenth of them at most 0.3.
/// </summary>
internal sealed class WorldTruth
{
    private const int Landings = 500_000;
    private const double Yard = 0.9144;
    private static readonly ConcurrentDictionary<World, Lazy<WorldTruth>> _known = new();

    private readonly World _world;
    private readonly Lazy<List<(int Season, int Terrain, int Band, double Downwind, double Right, double Radius)>> _landings;
    private readonly (double Downwind, double Right)[] _units = new (double, double)[50_000];
    private readonly ConcurrentDictionary<(int, int, int, double), double> _chances = new();
    private readonly ConcurrentDictionary<(Cell, string?), (int, int, int, double Downwind, double Right, double Radius)[]> _of = new();
    private readonly ConcurrentDictionary<(Cell, double, string?), double> _radii = new();

    private WorldTruth(World world)
    {
        _world = world;
        var dice = world.Dice(int.MinValue);
        for (var i = 0; i < _units.Length; i++) _units[i] = Unit(dice);
        _landings = new(() => [.. Enumerable.Range(0, Landings).Select(_ => Next(dice))]);
    }

    private (int, int, int, double, double, double) Next(Dice dice)
    {
        var (season, mission) = (dice.Below(_world.Seasons), _world.NextMission(dice));
        var wind = WorldSeason.WindOfPass(mission.Wind, dice);
        var (bias, unit, scale) = (_world.BiasOf(mission.Spotter), Unit(dice), _world.ScaleOf(season, mission.Terrain, wind));
        return (season, mission.Terrain, World.BandOf(wind), Yard * (bias.Downwind + (scale * unit.Downwind)),
            Yard * (bias.Right + (scale * unit.Right)), Yard * World.Terrains[mission.Terrain].Radius);
    }

    public static WorldTruth Of(World world) => _known.GetOrAdd(world, w => new(() => new(w))).Value;

    /// <summary>Landing rate of a cell of the default bands, <see cref="Cell.All"/> and margins included.</summary>
    /// <param name="cell">Band and terrain.</param>
    /// <param name="season">A season as the log names it; null for all.</param>
    public double Rate(Cell cell, string? season = null) => RateShifted(cell, default, season);

    /// <summary>The same, had every landing been moved.</summary>
    /// <param name="cell">Band and terrain.</param>
    /// <param name="move">Metres downwind and to the right.</param>
    /// <param name="season">A season as the log names it; null for all.</param>
    public double RateShifted(Cell cell, PlaneVector move, string? season = null)
    {
        var of = In(cell, season);
        return of.Count(l => double.Hypot(l.Downwind + move.Along, l.Right + move.Across) <= l.Radius) / (double)of.Length;
    }

    /// <summary>Share of landings of a cell within a distance in metres.</summary>
    public double Within(Cell cell, double distance)
    {
        var of = In(cell, null);
        return of.Count(l => double.Hypot(l.Downwind, l.Right) <= distance) / (double)of.Length;
    }

    /// <summary>Mean miss of a cell, metres.</summary>
    public PlaneVector MeanMiss(Cell cell)
    {
        var of = In(cell, null);
        return new(of.Average(l => l.Downwind), of.Average(l => l.Right));
    }

    /// <summary>The radius in metres that holds a share of the landings of a cell.</summary>
    /// <param name="cell">Band and terrain.</param>
    /// <param name="share">Between 0 and 1.</param>
    /// <param name="season">A season as the log names it; null for all.</param>
    public double Radius(Cell cell, double share, string? season = null) => _radii.GetOrAdd((cell, share, season), _ =>
    {
        var distances = In(cell, season).Select(l => double.Hypot(l.Downwind, l.Right)).Order().ToList();
        return distances[(int)(share * distances.Count)];
    });

    /// <summary>The chance of a landing inside in just these conditions; Monte Carlo error 0.2 points, alike in all.</summary>
    public double ChanceInside(int season, int terrain, int spotter, double wind) =>
        _chances.GetOrAdd((season, terrain, spotter == 0 ? 0 : 1, wind), _ =>
        {
            var (scale, bias, radius) = (_world.ScaleOf(season, terrain, wind), _world.BiasOf(spotter), World.Terrains[terrain].Radius);
            return _units.Count(u => double.Hypot(bias.Downwind + (scale * u.Downwind), bias.Right + (scale * u.Right)) <= radius)
                / (double)_units.Length;
        });

    private (int, int, int, double Downwind, double Right, double Radius)[] In(Cell cell, string? season) =>
        _of.GetOrAdd((cell, season), _ =>
        {
            var bands = new AccuracyOptions().Bands.Labels;
            return [.. _landings.Value.Where(l => (cell.WindBand == Cell.Any || cell.WindBand == bands[l.Band])
                && (cell.Terrain == Cell.Any || cell.Terrain == World.Terrains[l.Terrain].Name)
                && (season is null || season == $"{2041 + l.Season}"))];
        });

    private (double Downwind, double Right) Unit(Dice dice)
    {
        var (m, p, j) = (_world.UnitPart(dice), _world.UnitPart(dice), _world.UnitPart(dice));
        var (a, b, c) = (Math.Sqrt(_world.MissionShare), Math.Sqrt(_world.PassShare), Math.Sqrt(_world.OwnShare));
        return ((a * m.Downwind) + (b * p.Downwind) + (c * j.Downwind), (a * m.Right) + (b * p.Right) + (c * j.Right));
    }
}
