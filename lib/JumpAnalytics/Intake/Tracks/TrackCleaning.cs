namespace JumpAnalytics;

/// <summary>
/// From the fixes of a file to points that can be: in order of time, no time twice, spikes and frozen places out, heights filled
/// in only across short breaks.
/// </summary>
internal sealed class TrackCleaning
{
    /// <summary>Longest break of the heights that is filled in, seconds.</summary>
    private const double LongestFill = 5;

    /// <summary>Metres and seconds beyond which a number is none of a jump.</summary>
    private const double Highest = 20_000, LongestRecord = 3 * 86_400;

    /// <summary>Same place so many times in a row while the height goes on falling: the receiver froze.</summary>
    private const int Frozen = 4;

    private readonly List<TrackNote> _notes;
    private readonly TrackOptions _options;

    private TrackCleaning(List<TrackNote> notes, TrackOptions options) => (_notes, _options) = (notes, options);

    /// <summary>The points, places relative to the frame's origin and heights as recorded; or why there are none.</summary>
    public static Fit<CleanTrack> Of(RecordedTrack recorded, LocalFrame frame, TrackOptions options)
    {
        var notes = new List<TrackNote>(recorded.Notes);
        var barometers = recorded.Fixes.Count(f => f.BarometerHeight is not null);
        var satellites = recorded.Fixes.Count(f => f.GpsHeight is not null);
        if (barometers + satellites == 0)
            return Fit<CleanTrack>.Refused($"{recorded.Name} has no heights; a descent can't be told without");
        var source = Source(recorded, barometers, satellites);
        if (barometers > 0 && satellites > 0)
            notes.Add(
                new TrackNote("two heights", 1, $"Heights by {(source == TrackHeightSource.Barometer ? "air pressure" : "satellite")} were "
                    + "used: there are enough of them, and they are the smoother ones."));
        var cleaning = new TrackCleaning(notes, options);
        var possible = recorded.Fixes.Where(f => Math.Abs(f.Seconds) < LongestRecord && Math.Abs(f.GpsHeight ?? 0) < Highest
            && Math.Abs(f.BarometerHeight ?? 0) < Highest).ToList();
        if (possible.Count < recorded.Fixes.Count)
            cleaning.Note("impossible number", recorded.Fixes.Count - possible.Count,
                $"{Rounding.Count(recorded.Fixes.Count - possible.Count, "point")} with a height beyond 20 km or days from the first "
                    + $"{(recorded.Fixes.Count - possible.Count == 1 ? "was" : "were")} left out.");
        var points = possible.Select(f => new RawPoint(f.Seconds, frame.ToLocal(f.Place),
            source == TrackHeightSource.Barometer ? f.BarometerHeight : f.GpsHeight)).ToList();
        points = cleaning.InOrder(points);
        points = cleaning.Thawed(points);
        points = cleaning.WithHeights(points);
        if (points.Count < 2) return Fit<CleanTrack>.Refused(
            $"{recorded.Name} keeps {Rounding.Count(points.Count, "point")} with time, place and height; a descent has many");
        points = cleaning.WithoutSpikes(points);
        cleaning.NoteGaps(points);
        return Fit<CleanTrack>.Made(
            new CleanTrack([.. points.Select(p => new TrackPoint(p.Seconds, p.Place, p.Height!.Value))], source, notes));
    }

    /// <summary>The heights of which there are enough, and of two such the ones with less noise.</summary>
    private static TrackHeightSource Source(RecordedTrack recorded, int barometers, int satellites)
    {
        if (barometers < 0.8 * satellites || barometers == 0) return TrackHeightSource.Gps;
        if (satellites < 0.8 * barometers) return TrackHeightSource.Barometer;
        double Noise(Func<RecordedFix, double?> height) => TrackNoise.OfHeights(
            [.. recorded.Fixes.Where(f => height(f) is not null).Select(f => new TrackPoint(f.Seconds, default, height(f)!.Value))]);
        // One stuck at a value is very smooth.
        var moves = recorded.Fixes.Select(f => f.BarometerHeight).OfType<double>().Distinct().Take(3).Count() == 3;
        return moves && Noise(f => f.BarometerHeight) <= Noise(f => f.GpsHeight) ? TrackHeightSource.Barometer : TrackHeightSource.Gps;
    }

    private readonly record struct RawPoint(double Seconds, LocalVector Place, double? Height);

    private List<RawPoint> InOrder(List<RawPoint> points)
    {
        var (kept, same, other, back) = (new List<RawPoint>(), 0, 0, 0);
        foreach (var p in points)
        {
            if (kept.Count == 0 || p.Seconds > kept[^1].Seconds) kept.Add(p);
            else if (p.Seconds < kept[^1].Seconds) back++;
            else if (p.Place == kept[^1].Place) same++;
            else other++;
        }
        if (same + other > 0) Note("repeated time", same + other, $"{Rounding.Count(same + other, "point")} repeated a "
            + $"time{(other > 0 ? $", {Rounding.Count(other)} of them at another place" : "")}; the first of each was kept.");
        if (back > 0) Note("time running back", back, $"{Rounding.Count(back, "point")} lay before the one ahead of "
            + $"{(back == 1 ? "it" : "them")} and {(back == 1 ? "was" : "were")} left out.");
        return kept;
    }

    private List<RawPoint> Thawed(List<RawPoint> points)
    {
        var (kept, frozen) = (new List<RawPoint>(), 0);
        for (var i = 0; i < points.Count;)
        {
            var end = i + 1;
            while (end < points.Count && points[end].Place == points[i].Place) end++;
            kept.Add(points[i]);
            var falls = end < points.Count && points[i].Height - points[end].Height is { } fall
                && fall > _options.LeastDescent * (points[end].Seconds - points[i].Seconds);
            if (end - i >= Frozen && falls) frozen += end - i - 1;
            else kept.AddRange(points[(i + 1)..end]);
            i = end;
        }
        if (frozen > 0) Note("frozen place", frozen,
            $"The receiver gave one place again and again while the height fell: {Rounding.Count(frozen, "point")} left out.");
        return kept;
    }

    private List<RawPoint> WithHeights(List<RawPoint> points)
    {
        var (kept, filled, without) = (new List<RawPoint>(), 0, 0);
        int[] ahead = new int[points.Count + 1];
        ahead[points.Count] = -1;
        for (var i = points.Count - 1; i >= 0; i--) ahead[i] = points[i].Height is not null ? i : ahead[i + 1];
        var before = -1;
        for (var i = 0; i < points.Count; i++)
        {
            if (points[i].Height is not null) before = i;
            if (points[i].Height is not null)
            {
                kept.Add(points[i]);
                continue;
            }
            var after = ahead[i];
            if (before < 0 || after < 0 || points[after].Seconds - points[before].Seconds > LongestFill)
            {
                without++;
                continue;
            }
            var (a, b) = (points[before], points[after]);
            kept.Add(points[i] with { Height =
                a.Height + (b.Height - a.Height) * (points[i].Seconds - a.Seconds) / (b.Seconds - a.Seconds) });
            filled++;
        }
        if (filled > 0) Note("height filled in", filled, $"{Rounding.Count(filled, "height")} {(filled == 1 ? "was" : "were")} filled in "
            + $"between {(filled == 1 ? "its" : "their")} neighbours.");
        if (without > 0) Note("point without height", without,
            $"{Rounding.Count(without, "point")} had no height and {(without == 1 ? "was" : "were")} left out.");
        return kept;
    }

    /// <summary>
    /// Takes out points that lie farther off the line between their neighbours than the hardest pull and the noise allow, the worst first.
    /// </summary>
    private List<RawPoint> WithoutSpikes(List<RawPoint> points)
    {
        var (placeSd, heightSd) = (TrackNoise.OfPlaces([.. points.Select(p => new TrackPoint(p.Seconds, p.Place, p.Height!.Value))]),
            TrackNoise.OfHeights([.. points.Select(p => new TrackPoint(p.Seconds, p.Place, p.Height!.Value))]));
        var spikes = 0;
        for (var round = 0; round < 50; round++)
        {
            var worst = Enumerable.Range(1, Math.Max(0, points.Count - 2))
                .Select(i => (At: i, Excess: Math.Max(OffLine(i) / Allowed(i, placeSd), OffHeight(i) / Allowed(i, heightSd))))
                .Where(s => s.Excess > 1).OrderByDescending(s => s.Excess).ToList();
            if (worst.Count == 0) break;
            var gone = new HashSet<int>();
            foreach (var (at, _) in worst)
            {
                if (!gone.Contains(at - 1) && !gone.Contains(at + 1)) gone.Add(at); // a neighbour of a spike looks like one
            }
            spikes += gone.Count;
            points = [.. points.Where((_, i) => !gone.Contains(i))];
        }
        if (spikes > 0) Note("spike", spikes, $"{Rounding.Count(spikes, "point")} lay where nobody can have been between the ones before "
            + $"and after, and {(spikes == 1 ? "was" : "were")} left out.");
        return points;

        double Allowed(int i, double sd) => 5 + 6 * sd
            + _options.HardestPull * (points[i].Seconds - points[i - 1].Seconds) * (points[i + 1].Seconds - points[i].Seconds) / 2;
        double Share(int i) => (points[i].Seconds - points[i - 1].Seconds) / (points[i + 1].Seconds - points[i - 1].Seconds);
        double OffLine(int i) => (points[i].Place - (1 - Share(i)) * points[i - 1].Place - Share(i) * points[i + 1].Place).Length;
        double OffHeight(int i) =>
            Math.Abs(points[i].Height!.Value - (1 - Share(i)) * points[i - 1].Height!.Value - Share(i) * points[i + 1].Height!.Value);
    }

    private void NoteGaps(List<RawPoint> points)
    {
        if (points.Count < 3) return;
        double[] steps = [.. points.Zip(points.Skip(1), (a, b) => b.Seconds - a.Seconds).Order()];
        var gaps = steps.Where(s => s > Math.Max(_options.Gap, 3 * steps[steps.Length / 2])).ToList();
        if (gaps.Count > 0) Note("gap", gaps.Count, $"{Rounding.Count(gaps.Count, "gap")} without a point, "
            + $"the longest of {Rounding.Fixed(gaps.Max(), 0)} s; nothing was filled in.");
    }

    private void Note(string kind, int count, string text) => _notes.Add(new TrackNote(kind, count, text));
}

/// <summary>Points that can be, heights as recorded.</summary>
internal sealed record CleanTrack(IReadOnlyList<TrackPoint> Points, TrackHeightSource Source, List<TrackNote> Notes);
