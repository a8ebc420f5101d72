using CsCheck;
using NodaTime;

namespace JumpAnalytics.Tests;

/// <summary>A log that is written and read again is the same log.</summary>
public sealed class WritingTests
{
    private static readonly Gen<double> _metres =
        Gen.OneOf(Gen.Double[-3000, 3000], Gen.Int[-300, 300].Select(i => i * 0.9144), Gen.Const(0.0), Gen.Double[-1e-9, 1e-9]);
    private static readonly Gen<double> _positive = Gen.OneOf(Gen.Double[0.01, 3000], Gen.Int[1, 300].Select(i => i * 0.3048));
    private static readonly Gen<LocalVector> _vector = Gen.Select(_metres, _metres, (e, n) => new LocalVector(e, n));
    private static readonly Gen<Bearing> _bearing =
        Gen.OneOf(Gen.Double[0, 360], Gen.Int[0, 359].Select(i => (double)i)).Select(Bearing.FromDegrees);

    private static readonly string[] _awkward =
    [
        "=cmd|' /C calc'!A0", "+1", "-1", "@SUM(A1)", "'", "''", "'=x", "'plain", "a \"quoted\" part", "two\nlines", "two\r\nlines",
        "old\rmac", "a, b; c\td|e", "007", "1e5", "NaN", "yes",
        "2031-07-14", "_x0041_", "_x000D_", "tab\tinside", "Müller €", "😀 smoke", "<b>&amp;</b>", "\u0001",
        "]]>", "é", "#N/A", "12,5", "\uFFFE",
    ];

    private static readonly Gen<string> _text = Gen.OneOf(Gen.Int[0, _awkward.Length - 1].Select(i => _awkward[i]),
        Gen.Char[' ', '~'].Array[1, 12].Select(c => new string(c).Trim()).Where(t => t.Length > 0 && t != "NA"));

    private static Gen<T?> Maybe<T>(Gen<T> gen) where T : struct => Gen.Select(Gen.Bool, gen, (there, value) => there ? value : (T?)null);

    private static readonly Gen<string?> _maybeText = Gen.Select(Gen.Bool, _text, (there, text) => there ? text : null);

    private static readonly Gen<Offset?> _offset = Maybe(Gen.OneOf(Gen.Int[-12, 12].Select(Offset.FromHours),
        Gen.Int[-11, 11].Select(h => Offset.FromHoursAndMinutes(h, h < 0 ? -30 : 30)), Gen.Const(Offset.FromSeconds(-1234))));

    private static readonly Gen<Drop> _drop =
        from texts in _text.Array[4]
        from numbers in Gen.Select(_positive, _positive, Gen.Double[0.0, 40.0], _vector)
        from time in Gen.Select(Gen.Long[0, 40_000_000], Gen.OneOf(Gen.Const(0L), Gen.Long[0, 999_999_999]), _offset)
        from who in Gen.Select(_maybeText, _maybeText, _maybeText, _maybeText)
        from place in Gen.Select(Maybe(Gen.Select(Gen.Double[-89, 89], Gen.Double[-179, 179], (lat, lon) => new GeoPosition(lat, lon))),
            Maybe(_metres), Maybe(_bearing), Maybe(_bearing), Maybe(_vector))
        from rest in Gen.Select(Maybe(Gen.Double[0.0, 30.0]), Maybe(_positive), Maybe(Gen.Double[0, 90].Select(m => m * 60)),
            Maybe(_positive), Maybe(Gen.Double[0.0, 9.0]), Maybe(Gen.Double[-30.0, 30.0]))
        select new Drop
        {
            Id = texts[0], Mission = texts[1], Terrain = texts[2], Season = texts[3],
            Time = new LocalDateTime(2000, 1, 1, 0, 0).PlusMinutes(time.Item1).PlusNanoseconds(time.Item2), UtcOffset = time.Item3,
            TargetRadius = numbers.Item1, WindSpeed = numbers.Item3, ForecastDrift = numbers.Item4, Source = default,
            Base = who.Item1, Spotter = who.Item2, Aircraft = who.Item3, Remarks = who.Item4,
            Spot = place.Item1, SpotElevation = place.Item2, WindFrom = place.Item3, RunHeading = place.Item4, ActualExit = place.Item5,
            SurfaceWindSpeed = rest.Item1, ExitHeight = rest.Item2, StreamerAge = rest.Item3, GroundSpeed = rest.Item4,
            ExitSpacing = rest.Item5, Declination = rest.Item6,
        };

    private sealed record Place(LocalVector? Miss, double? Distance, double? Beyond);

    private static readonly Gen<Place> _place = Gen.OneOf(
        _vector.Select(v => new Place(v, v.Length, null)),
        Gen.Select(_positive, _bearing, (d, b) => new Place(LocalVector.FromPolar(d, b), d, null)),
        Gen.Double[0.0, 3000.0].Select(b => new Place(null, null, b)));

    private static Gen<Landing> LandingOf(IReadOnlyList<Drop> drops) =>
        from drop in Gen.Int[0, drops.Count - 1]
        from place in _place
        from texts in Gen.Select(_maybeText, _maybeText, _maybeText, _maybeText)
        from more in Gen.Select(Maybe(Gen.Int[1, 20]), Maybe(Gen.Bool), Maybe(Gen.Bool), Maybe(_positive))
        select new Landing
        {
            Drop = drops[drop], Source = default, Miss = place.Miss, MissDistance = place.Distance, Beyond = place.Beyond,
            // Other paths are set aside when read.
            Canopy = texts.Item1, MeasuredBy = texts.Item2,
            Track = texts.Item3 is { } track ? $"tracks/{string.Concat(track.Where(char.IsAsciiLetterOrDigit))}.gpx" : null,
            Remarks = texts.Item4,
            ExitOrder = more.Item1, HungUp = more.Item2, Injured = more.Item3, MeasuredSd = more.Item4,
        };

    private static readonly Gen<JumpLog> _log =
        from all in _drop.Array[0, 8]
        let drops = (IReadOnlyList<Drop>)[.. all.DistinctBy(d => d.Id)
            .Select(d => d with { Mission = $"{d.Mission}/{d.Season}", Terrain = d.Terrain.ToUpperInvariant().Replace(" ", "",
                StringComparison.Ordinal) })]
        from landings in drops.Count == 0 ? Gen.Const(Array.Empty<Landing>()) : LandingOf(drops).Array[0, 12]
        select Log(drops, [.. landings.Select((l, i) => i % 3 == 0 ? l : l with { Jumper = $"={i}" })]);

    private static JumpLog Log(IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings) =>
        new("made", "An invented log.", drops, landings, Made.NoIntake);

    [Theory]
    [InlineData(LogFileFormat.Csv)]
    [InlineData(LogFileFormat.Xlsx)]
    [InlineData(LogFileFormat.Parquet)]
    public void What_is_written_reads_back_the_same(LogFileFormat format) => Cases.Each(_log, 150, 51, log =>
    {
        using var files = new TempLog();
        log.Write(files.Folder, format);
        var read = files.Read();
        Assert.Empty(read.Intake.Quarantine.SelectMany(q => q.Problems));
        Assert.Empty(read.Intake.SetAside);
        Assert.Equal(log.Drops, read.Drops.Select(d => d with { Source = default }));
        Assert.Equal(log.Landings, read.Landings.Select(l => l with { Source = default, Drop = l.Drop with { Source = default } }));
        Assert.Equal(log.Notice, read.Notice);
    });

    [Fact]
    public void A_log_that_was_read_is_written_without_loss()
    {
        var log = Demo.DemoLog.Log;
        using var files = new TempLog();
        log.Write(files.Folder, LogFileFormat.Parquet);
        var read = files.Read();
        Assert.Equal(log.Drops.OrderBy(d => d.Id, StringComparer.Ordinal).Select(d => d with { Source = default }),
            read.Drops.OrderBy(d => d.Id, StringComparer.Ordinal).Select(d => d with { Source = default }));
        Assert.Equal(log.Landings.Select(l => (l.Miss, l.MissDistance, l.Beyond, l.Outcome)),
            read.Landings.Select(l => (l.Miss, l.MissDistance, l.Beyond, l.Outcome)));
    }

    [Fact]
    public void No_cell_of_text_begins_like_a_formula()
    {
        using var files = new TempLog();
        Log([Made.Drop(id: "=1+1", terrain: "@x", mission: "-m3")], []).Write(files.Folder, LogFileFormat.Csv);
        Assert.StartsWith("'=1+1,'-m3,", File.ReadAllLines(Path.Combine(files.Folder, "drops.csv"))[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_overwritten()
    {
        using var files = new TempLog().With("Drops-old.csv", "mine");
        var error = Assert.Throws<IOException>(() => Log([], []).Write(files.Folder, LogFileFormat.Csv));
        Assert.Contains("already holds Drops-old.csv", error.Message, StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(files.Folder));
    }
}
