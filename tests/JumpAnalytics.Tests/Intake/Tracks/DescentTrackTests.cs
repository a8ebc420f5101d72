namespace JumpAnalytics.Tests;

/// <summary>Cleaning, and exit, opening and touchdown found in simulated recordings.</summary>
public sealed class DescentTrackTests
{
    private static readonly GeoPosition _spot = new(44, -150);

    /// <summary>
    /// A recording: 15 s of the aircraft at 45 m/s, exit at 450 m, open 4 s later 40 m lower, 5 m/s down in a wind of 4 m/s with turns,
    /// 30 s on the ground at 300 m above sea level. Noise: 2 m places, 3 m heights.
    /// </summary>
    private static RecordedTrack Recording(int seed, double hertz = 1, double from = -15, double to = 116, double noise = 2,
        double heightNoise = 3, Func<int, RecordedFix, RecordedFix?>? spoil = null)
    {
        var random = SeedStream.For(seed, "recording");
        var frame = new LocalFrame(_spot);
        var fixes = new List<RecordedFix>();
        var (metresNorth, metresEast) = (1 / 111_100.0, 1 / (111_320.0 * Math.Cos(double.DegreesToRadians(44))));
        for (var t = from; t <= to; t += 1 / hertz)
        {
            var open = Math.Clamp(t - 4, 0, 82);
            var height = t < 0 ? 450 : t < 4 ? 450 - 2.5 * t * t : Math.Max(0, 410 - 5 * open);
            var north = (t < 0 ? 45 * t : 45 * (1 - Math.Exp(-Math.Min(t, 60)))) - 400 + 4 * Math.Clamp(t, 0, 86);
            var east = t < 4 ? 0 : 20 * Math.Sin(Math.Min(open, 82) / 5);
            var ((a, b), (c, _)) = (StandardNormal.Pair(random), StandardNormal.Pair(random));
            var fix = new RecordedFix(t - from, new GeoPosition(44 + (north + noise * a) * metresNorth,
                -150 + (east + noise * b) * metresEast), 300 + height + heightNoise * c, null);
            if ((spoil is null ? fix : spoil(fixes.Count, fix)) is { } kept) fixes.Add(kept);
        }
        return new RecordedTrack("a.gpx", "GPX", null, fixes, []);
    }

    private static DescentTrack Track(RecordedTrack recorded) => DescentTrack.From(recorded, _spot, 300).Value!;

    /// <summary>
    /// Root mean square error of the moments over 40 recordings, seconds: truth exit at 15, opening at 19, touchdown at 101. The bound is
    /// twice what was measured for most.
    /// </summary>
    [Theory]
    [InlineData(1, 2, 3, 2)]
    [InlineData(5, 2, 3, 2)]
    [InlineData(0.5, 2, 3, 3)]
    [InlineData(1, 3, 10, 3)]
    public void Exit_opening_and_touchdown_are_found(double hertz, double noise, double heightNoise, double bound)
    {
        var (exit, opening, touchdown, inside) = (0.0, 0.0, 0.0, 0);
        const int Cases = 40;
        for (var seed = 1; seed <= Cases; seed++)
        {
            var track = Track(Recording(seed, hertz, noise: noise, heightNoise: heightNoise));
            exit += Math.Pow(track.Exit!.Seconds - 15, 2);
            opening += Math.Pow(track.Opening!.Seconds - 19, 2);
            touchdown += Math.Pow(track.Touchdown!.Seconds - 101, 2);
            if (Math.Abs(track.Touchdown.Seconds - 101) < 2.5 * track.Touchdown.SecondsSd) inside++;
            Assert.InRange(track.Touchdown.Confidence, 0.9, 1);
            Close.Absolute(0, track.Points.Where(p => p.Seconds > 104).Average(p => p.Height), Math.Max(3, heightNoise));
        }
        Assert.InRange(Math.Sqrt(exit / Cases), 0, bound);
        Assert.InRange(Math.Sqrt(opening / Cases), 0, bound + 1);
        Assert.InRange(Math.Sqrt(touchdown / Cases), 0, bound);
        // Errors are stated about right: 98.8 % expected, fewer than 34 of 40 by chance in less than 1 of 10,000.
        Assert.InRange(inside, 34, 40);
    }

    [Fact]
    public void Noise_is_told_by_the_track_itself()
    {
        var sds = Enumerable.Range(1, 20).Select(s => Track(Recording(s, hertz: 2)).PlaceSd).ToList();
        Assert.InRange(sds.Average(), 1.7, 2.3);
        Assert.InRange(Enumerable.Range(1, 20).Average(s => Track(Recording(s, hertz: 2)).HeightSd), 2.6, 3.4);
    }

    [Fact]
    public void A_late_start_and_an_end_in_the_air_are_said()
    {
        var late = Track(Recording(1, from: 20));
        Assert.Equal((null, null), (late.Exit, late.Opening));
        Assert.NotNull(late.Touchdown);
        Assert.Contains(late.Notes, n => n.Kind == "late start");
        Close.Absolute(late.Points[0].Seconds, late.UnderCanopy[0].Seconds, 2);
        var early = Track(Recording(1, to: 60));
        Assert.Null(early.Touchdown);
        Assert.NotNull(early.Exit);
        Assert.Contains(early.Notes, n => n.Kind == "ends in the air");
    }

    /// <summary>An exit may be told 1.3 s early, for the first seconds fall faster: its error is never stated below that.</summary>
    [Theory]
    [InlineData(1, 2, 3)]
    [InlineData(5, 0, 0)]
    public void The_error_of_an_exit_allows_for_the_first_seconds(double hertz, double noise, double heightNoise) =>
        Assert.All(Enumerable.Range(1, 5), seed => Assert.InRange(
            Track(Recording(seed, hertz, noise: noise, heightNoise: heightNoise)).Exit!.SecondsSd, 1.3, 5));

    [Fact]
    public void What_can_not_be_is_taken_out_and_counted()
    {
        var spikes = Track(Recording(1, spoil: (i, f) => i is 30 or 55
            ? f with { Place = new GeoPosition(f.Place.Latitude + 0.004, f.Place.Longitude) }
            : i == 70 ? f with { GpsHeight = f.GpsHeight + 200 } : f));
        Assert.Equal(3, spikes.Notes.Single(n => n.Kind == "spike").Count);
        Close.Absolute(101, spikes.Touchdown!.Seconds, 4);
        var gap = Track(Recording(1, spoil: (_, f) => f.Seconds is > 45 and < 60 ? null : f));
        Assert.Contains("the longest of 15 s", gap.Notes.Single(n => n.Kind == "gap").Text, StringComparison.Ordinal);
        var twice = Track(Recording(1, spoil: (i, f) => i % 5 == 4 ? f with { Seconds = f.Seconds - 1 } : f));
        Assert.Equal(26, twice.Notes.Single(n => n.Kind == "repeated time").Count);
        Assert.Equal(twice.Points.Select(p => p.Seconds).Distinct().Order(), twice.Points.Select(p => p.Seconds));
        GeoPosition? held = null;
        var frozen = Track(Recording(1, spoil: (i, f) => i is >= 40 and < 48 ? f with { Place = held ??= f.Place } : f));
        Assert.Equal(7, frozen.Notes.Single(n => n.Kind == "frozen place").Count);
        var holes = Track(Recording(1, spoil: (i, f) => i is 40 or 41 ? f with { GpsHeight = null } : f));
        Assert.Equal(2, holes.Notes.Single(n => n.Kind == "height filled in").Count);
    }

    /// <summary>
    /// The aircraft loses 900 m at 8 m/s and 60 m/s over the ground before the run: that is no descent, though it
    /// loses more height than the jump.
    /// </summary>
    [Fact]
    public void The_way_down_of_the_aircraft_is_not_taken_for_the_jump()
    {
        var jump = Recording(2);
        var way = Enumerable.Range(0, 113).Select(t => new RecordedFix(t, new GeoPosition(44 - (60.0 * (113 - t) + 1075) / 111_100, -150),
            750 + 8.0 * (113 - t), null)).ToList();
        var track = Track(jump with { Fixes = [.. way, .. jump.Fixes.Select(f => f with { Seconds = f.Seconds + 113 })] });
        Close.Absolute(113 + 15, track.Exit!.Seconds, 3);
        Close.Absolute(113 + 101, track.Touchdown!.Seconds, 3);
    }

    [Fact]
    public void Without_heights_or_without_a_descent_there_is_no_track()
    {
        Assert.Contains("has no heights", DescentTrack.From(Recording(1, spoil: (_, f) => f with { GpsHeight = null }), _spot).Reason,
            StringComparison.Ordinal);
        Assert.Contains("shows no descent", DescentTrack.From(Recording(1, from: 105, to: 150), _spot).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void The_smoother_height_is_taken()
    {
        var recorded = Recording(1, spoil: (_, f) => f with { BarometerHeight = f.GpsHeight + 50 });
        var track = Track(recorded);
        Assert.Equal(TrackHeightSource.Barometer, track.HeightSource);
        Close.Absolute(0, track.Points[^1].Height, 10); // above the ground after the touchdown, whatever the barometer's offset
    }

    /// <summary>A barometer that is noisier than the satellites, or stuck, is not taken.</summary>
    [Fact]
    public void A_poor_barometer_is_not_taken()
    {
        var random = SeedStream.For(9, "barometer");
        Assert.Equal(TrackHeightSource.Gps,
            Track(Recording(1, spoil: (_, f) => f with { BarometerHeight = f.GpsHeight + 40 * (random.NextDouble() - 0.5) })).HeightSource);
        Assert.Equal(TrackHeightSource.Gps, Track(Recording(1, spoil: (_, f) => f with { BarometerHeight = 0 })).HeightSource);
        Assert.Equal(TrackHeightSource.Barometer, Track(Recording(1, heightNoise: 0.2, spoil: (_, f) =>
            f with { BarometerHeight = f.GpsHeight, GpsHeight = f.GpsHeight + 20 * (random.NextDouble() - 0.5) })).HeightSource);
    }

    [Fact]
    public void Impossible_numbers_are_left_out()
    {
        var track =
            Track(Recording(1, spoil: (i, f) => i == 20 ? f with { GpsHeight = 1e300 } : i == 125 ? f with { Seconds = 1e200 } : f));
        Assert.Equal(2, track.Notes.Single(n => n.Kind == "impossible number").Count);
        Assert.All(track.Points, p => Assert.True(double.IsFinite(p.Height) && p.Seconds < 1000));
    }
}
