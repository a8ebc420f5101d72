namespace JumpAnalytics;

/// <summary>From a file's fixes to a descent track.</summary>
internal static class TrackMaking
{
    public static Fit<DescentTrack> Of(RecordedTrack recorded, GeoPosition spot, double? spotElevation, TrackOptions options)
    {
        var clean = TrackCleaning.Of(recorded, new LocalFrame(spot, spotElevation ?? 0), options);
        if (!clean.Success) return Fit<DescentTrack>.Refused(clean.Reason);
        var (points, source, notes) = (clean.Value.Points, clean.Value.Source, clean.Value.Notes);
        var heightSd = TrackNoise.OfHeights(points);
        if (TrackMoments.Of(points, heightSd, options) is not { } found)
            return Fit<DescentTrack>.Refused($"{recorded.Name} shows no descent: its heights never fall for long");
        var (ground, how) = Ground(points, found.Touchdown, found.Last, spotElevation);
        notes.Add(new TrackNote("ground", 1, how));
        if (found.Exit is null)
            notes.Add(new TrackNote("late start", 1, "The track does not show the exit; it begins under canopy or falling."));
        var touchdown = found.Touchdown;
        if (touchdown is null && points[^1].Height - ground < 15 && (spotElevation is not null || found.Last == points.Count - 1))
        {
            if (spotElevation is not null && source == TrackHeightSource.Gps)
                touchdown = new TrackMoment(points.Count - 1, points[^1].Seconds, 3, 0.6, "the track ends near the ground");
        }
        if (touchdown is null) notes.Add(new TrackNote("ends in the air", 1, "The track ends while falling: the touchdown is not in it."));
        else if (Walked(points, touchdown) is { } walked)
            notes.Add(new TrackNote("after touchdown", 1, $"{Rounding.Fixed(points[^1].Seconds - touchdown.Seconds, 0)} s after the "
                + $"touchdown were left out, in which the recorder moved {Rounding.Fixed(walked, 0)} m."));
        return Fit<DescentTrack>.Made(new DescentTrack
        {
            Name = recorded.Name, Points = [.. points.Select(p => p with { Height = p.Height - ground })], Start = recorded.Start,
            Exit = found.Exit, Opening = found.Opening, Touchdown = touchdown, HeightSource = source,
            PlaceSd = TrackNoise.OfPlaces(points), HeightSd = heightSd, Notes = notes, FirstFall = points[found.First].Seconds,
        });
    }

    /// <summary>The height of the landing ground in the track's own heights, and what it was told by.</summary>
    private static (double Height, string How) Ground(IReadOnlyList<TrackPoint> points,
        TrackMoment? touchdown, int last, double? spotElevation)
    {
        if (touchdown is not null)
        {
            double[] after =
                [.. points.Where(p => p.Seconds >= touchdown.Seconds && p.Seconds <= touchdown.Seconds + 20).Select(p => p.Height).Order()];
            if (after.Length > 0) return (after[after.Length / 2], "Heights are above the ground after the touchdown.");
        }
        return spotElevation is { } elevation && Math.Abs(points[last].Height - elevation) < 600
            ? (Math.Min(elevation, points[last].Height), points[last].Height < elevation
                ? "Heights are above the lowest point; it lies below the spot's elevation."
                : "Heights are above the spot's elevation, since the track shows no touchdown.")
            : (points.Min(p => p.Height),
                "Heights are above the lowest point, since the track shows no touchdown and the spot's elevation does not help.");
    }

    private static double? Walked(IReadOnlyList<TrackPoint> points, TrackMoment touchdown)
    {
        var after = points.Where(p => p.Seconds > touchdown.Seconds + 2).ToList();
        return after.Count < 3 ? null : after.Max(p => (p.Place - after[0].Place).Length);
    }
}
