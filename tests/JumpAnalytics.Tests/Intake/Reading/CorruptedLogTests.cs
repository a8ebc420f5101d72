using System.Globalization;
using System.Text;
using CsCheck;

namespace JumpAnalytics.Tests;

/// <summary>A good log with random damage: every row is accounted for, nothing of it is lost, and nothing else is thrown.</summary>
public sealed class CorruptedLogTests
{
    private const string DropsHeader = "drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph,forecast_drift_yd,forecast_to_deg,"
        + "spot_lat,spot_lon,spot_elevation_ft,wind_from_degm,declination_deg,exit_height_ft,exit_east_yd,exit_north_yd,"
        + "ground_speed_kt,exit_spacing_s,season,remarks";

    private const string LandingsHeader = "drop_id,landing_distance_yd,landing_bearing_deg,landing_east_m,landing_north_m,landing_lat,"
        + "landing_lon,landing_beyond_ft,jumper,exit_order,hung_up,measured_sd_m,remarks";

    /// <summary>Text that troubles readers: quotes, separators, line ends, numbers too large, letters, formulas, markup.</summary>
    private static readonly string[] _payloads =
    [
        "\"", "\"\"", ",", ",,,", "\n", "\r\n", "\r", ";", "\t", "|", "\0", " ", "NA", "-", "1e308", "-1e308", "1e-320", "NaN", "Infinity",
        "99999999999999999999", "0", "-0", "1,5", "٣",
        "\uFEFF", "é", "\uFFFD", "<script>", "=1+1", "'", "\\", "\"a\nb\"", "\",\"", "d1", "2031-02-30T00:00", "9999-12-31T23:59Z",
        "0001-01-01T00:00", "90", "360", "361", "180",
    ];

    public enum Damage
    {
        Insert, Overwrite, Delete, ReplaceField, RepeatLine, Truncate, FlipByte,
    }

    public sealed record Blow(Damage Kind, bool OnDrops, int At, int Payload, int Length, byte Byte)
    {
        public override string ToString() => string.Create(CultureInfo.InvariantCulture,
            $"{Kind} {(OnDrops ? "drops" : "landings")} at {At} payload {Payload} length {Length} byte {Byte}");
    }

    private static readonly Gen<Blow> _blow =
        Gen.Select(Gen.Int[0, 6], Gen.Bool, Gen.Int[0, int.MaxValue], Gen.Int[0, _payloads.Length - 1], Gen.Int[1, 12], Gen.Byte,
            (kind, drops, at, payload, length, b) => new Blow((Damage)kind, drops, at, payload, length, b));

    private static readonly Gen<Blow[]> _blows = _blow.Array[1, 5];

    private static readonly (string Header, string Body) _drops = (DropsHeader + "\n", Drops());
    private static readonly (string Header, string Body) _landings = (LandingsHeader + "\n", Landings());

    private static string Drops()
    {
        var text = new StringBuilder();
        for (var i = 0; i < 10; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"d{i},m{i / 2},{2030 + i / 6}-07-{10 + i}T15:20-06:00,"
                + $"{(i % 2 == 0 ? "timber" : "grass")},25,{i + 2},{100 + 20 * i},{36 * i},")
                .Append(CultureInfo.InvariantCulture, $"46.95,-116.3,3000,{20 * i},15,1500,{-10 * i},{-90 - i},90,1,,@D{i:000}@ clear\n");
        }
        return text.ToString();
    }

    private static string Landings()
    {
        var text = new StringBuilder();
        for (var i = 0; i < 30; i++)
        {
            var place = (i % 4) switch
            {
                0 => string.Create(CultureInfo.InvariantCulture, $"{5 + i},{12 * i},,,,,"),
                1 => string.Create(CultureInfo.InvariantCulture, $",,{i},{-i},,,"),
                2 => string.Create(CultureInfo.InvariantCulture, $",,,,46.9501{i},-116.3001{i},"),
                _ => ",,,,,,90",
            };
            text.Append(CultureInfo.InvariantCulture,
                $"d{i % 10},{place},j{i},{1 + i / 10},{(i % 3 == 0 ? "yes" : "no")},2,@L{i:000}@ ok\n");
        }
        return text.ToString();
    }

    [Fact]
    public void The_log_is_good_before_it_is_damaged()
    {
        using var log = TempLog.Of(_drops.Header + _drops.Body, _landings.Header + _landings.Body);
        var read = log.Read();
        Assert.Empty(read.Intake.Quarantine);
        Assert.Empty(read.Intake.SetAside);
        Assert.Equal((10, 30), (read.Drops.Count, read.Landings.Count));
    }

    /// <summary>Damage below the header: nothing is thrown at all, and every mark that is still in the text is in what was read.</summary>
    [Fact]
    public void Damaged_rows_are_accepted_or_set_apart_and_none_is_lost()
    {
        var (n, looked) = (0, 0);
        using var log = new TempLog();
        Cases.Each(_blows, 2500, 31, blows =>
        {
            var (drops, landings) =
                (Strike(_drops.Body, blows.Where(b => b.OnDrops)), Strike(_landings.Body, blows.Where(b => !b.OnDrops)));
            log.With("drops.csv", [.. Encoding.UTF8.GetBytes(_drops.Header), .. drops])
                .With("landings.csv", [.. Encoding.UTF8.GetBytes(_landings.Header), .. landings]);
            var read = log.Read();
            AssertAccounted(read);
            AssertFinite(read);
            AssertNothingLost(Encoding.UTF8.GetString(drops), "drops.csv", read,
                [.. read.Drops.SelectMany(d => new[] { d.Id, d.Mission, d.Terrain, d.Season, d.Remarks })]);
            AssertNothingLost(Encoding.UTF8.GetString(landings), "landings.csv", read,
                [.. read.Landings.SelectMany(l => new[] { l.Jumper, l.Remarks })]);
            if (n++ % 25 == 0) Show(read);
            looked += read.Landings.Count;
        });
        Assert.InRange(looked, 2500 * 15, 2500 * 30); // so many landings were asked whether they are finite, of 30 a log
    }

    /// <summary>Rows that run together unseen are kept as the one text that their quotes make of them, and no mark is lost.</summary>
    [Fact]
    public void Rows_within_one_quoted_field_are_one_text()
    {
        var body = _landings.Body.Replace("@L003@ ok", "\"@L003@ ok", StringComparison.Ordinal)
            .Replace("@L004@ ok", "@L004@ ok\"", StringComparison.Ordinal);
        using var log = TempLog.Of(_drops.Header + _drops.Body, _landings.Header + body);
        var read = log.Read();
        var remark = Assert.Single(read.Landings, l => Marks(l.Remarks ?? "").Count() == 2).Remarks;
        AssertNothingLost(body, "landings.csv", read, [.. read.Landings.SelectMany(l => new[] { l.Jumper, l.Remarks })]);
        Assert.Equal(29, read.Landings.Count);
        Assert.True(IsWholeField(body, remark!));
        Assert.False(IsWholeField(body.Replace(",\"@L003@", ",x\"@L003@", StringComparison.Ordinal), remark!));
    }

    /// <summary>Damage anywhere, headers too: either a log that is accounted for, or the error that says what is wrong with it.</summary>
    [Fact]
    public void Damage_anywhere_throws_nothing_but_the_error_of_the_format()
    {
        var refused = 0;
        using var log = new TempLog();
        Cases.Each(_blows, 2000, 32, blows =>
        {
            // Positions are brought into the first two lines, so that headers are struck often.
            var near = blows.Select(b => b with { At = b.At % 300 }).ToList();
            log.With("drops.csv", Strike(_drops.Header + _drops.Body, near.Where(b => b.OnDrops)))
                .With("landings.csv", Strike(_landings.Header + _landings.Body, near.Where(b => !b.OnDrops)));
            try
            {
                var read = log.Read();
                AssertAccounted(read);
                AssertFinite(read);
            }
            catch (LogFormatException e)
            {
                Assert.Contains(".csv", e.Message, StringComparison.Ordinal);
                refused++;
            }
        });
        Assert.InRange(refused, 100, 1900); // both outcomes are tried
    }

    /// <summary>The same for one flat table of random bytes, quotes and separators.</summary>
    [Fact]
    public void Any_bytes_are_a_log_or_the_error_of_the_format()
    {
        using var log = new TempLog();
        Cases.Each(Gen.Byte.Array[0, 400], 1000, 33, bytes =>
        {
            log.With("jumps.csv", bytes);
            Assert.Throws<LogFormatException>(log.Read);
        });
    }

    private static byte[] Strike(string text, IEnumerable<Blow> blows)
    {
        var bytes = Encoding.UTF8.GetBytes(text).ToList();
        foreach (var blow in blows)
        {
            if (bytes.Count == 0) break;
            var at = blow.At % bytes.Count;
            var payload = Encoding.UTF8.GetBytes(_payloads[blow.Payload]);
            var length = Math.Min(blow.Length, bytes.Count - at);
            switch (blow.Kind)
            {
                case Damage.Insert: bytes.InsertRange(at, payload); break;
                case Damage.Overwrite:
                    bytes.RemoveRange(at, Math.Min(payload.Length, bytes.Count - at));
                    bytes.InsertRange(at, payload);
                    break;
                case Damage.Delete: bytes.RemoveRange(at, length); break;
                case Damage.Truncate: bytes.RemoveRange(at, bytes.Count - at); break;
                case Damage.FlipByte: bytes[at] ^= blow.Byte; break;
                case Damage.ReplaceField:
                    var (start, end) = (at, at);
                    while (start > 0 && bytes[start - 1] is not ((byte)',' or (byte)'\n')) start--;
                    while (end < bytes.Count && bytes[end] is not ((byte)',' or (byte)'\n')) end++;
                    bytes.RemoveRange(start, end - start);
                    bytes.InsertRange(start, payload);
                    break;
                default:
                    var from = bytes.LastIndexOf((byte)'\n', at) + 1;
                    var to = bytes.IndexOf((byte)'\n', at);
                    bytes.InsertRange(from, bytes.GetRange(from, (to < 0 ? bytes.Count : to + 1) - from));
                    break;
            }
        }
        return [.. bytes];
    }

    private static void AssertAccounted(JumpLog read)
    {
        var intake = read.Intake;
        Assert.Equal(intake.RowsRead, intake.RowsAccepted + intake.RowsQuarantined);
        Assert.Equal(intake.RowsQuarantined, intake.Quarantine.Count);
        Assert.Equal(intake.RowsAccepted, read.Drops.Count + read.Landings.Count);
        Assert.All(intake.Files, f => Assert.Equal(f.RowsQuarantined, intake.Quarantine.Count(q => q.Source.File == f.File)));
        Assert.All(intake.Quarantine, q =>
        {
            Assert.NotEmpty(q.Problems);
            Assert.NotEmpty(q.Fields);
            Assert.True(q.Source.Line >= 2);
        });
        Assert.All(intake.Quarantine.SelectMany(q => q.Problems).Concat(intake.SetAside),
            p => Assert.All([p.Column, p.Kind, p.Reason, p.Try], t => Assert.NotEqual("", t)));

        // A line belongs to one row.
        var sources = read.Drops.Select(d => d.Source).Concat(read.Landings.Select(l => l.Source))
            .Concat(intake.Quarantine.Select(q => q.Source)).Concat(intake.NoRecords.Select(n => n.Source)).ToList();
        Assert.Equal(sources.Count, sources.Distinct().Count());
    }

    private static void AssertFinite(JumpLog read)
    {
        foreach (var d in read.Drops)
        {
            double?[] numbers =
            [
                d.TargetRadius, d.WindSpeed, d.ForecastDrift.East, d.ForecastDrift.North, d.SpotElevation, d.SurfaceWindSpeed,
                d.ExitHeight, d.StreamerAge, d.GroundSpeed,
                d.ExitSpacing, d.ActualExit?.East, d.ActualExit?.North, d.Declination,
            ];
            Assert.All(numbers, x => Assert.True(x is null || double.IsFinite(x.Value), d.ToString()));
        }
        foreach (var l in read.Landings)
        {
            double?[] numbers = [l.Miss?.East, l.Miss?.North, l.MissDistance, l.Beyond, l.MeasuredSd];
            Assert.All(numbers, x => Assert.True(x is null || double.IsFinite(x.Value), l.ToString()));
            Assert.True(l.IsCensored == l.Miss is null && l.IsCensored == l.MissDistance is null);
        }
    }

    /// <summary>
    /// Every mark of the text is kept. An accepted text with more than its own mark holds other rows: that is right only where the file
    /// quotes it as one field from its first letter to its last, which nobody can tell from a remark of several lines.
    /// </summary>
    private static void AssertNothingLost(string text, string file, JumpLog read, List<string?> accepted)
    {
        var kept = string.Join('\n', accepted.Concat(read.Intake.Quarantine.Where(q => q.Source.File == file).SelectMany(q => q.Fields))
            .Concat(read.Intake.NoRecords.Where(n => n.Source.File == file).Select(n => n.Value)));
        foreach (var mark in Marks(text))
            Assert.True(kept.Contains(mark, StringComparison.Ordinal),
                $"{file}: {mark} is neither in an accepted row nor in the quarantine.");
        foreach (var value in accepted.OfType<string>().Where(v => v.Contains('\n') && Marks(v).Any()))
        {
            var quoted = value.Replace("\"", "\"\"", StringComparison.Ordinal);
            Assert.True(IsWholeField(text, quoted), $"{file}: rows ran together unseen: {value}");
        }
    }

    private static bool IsWholeField(string text, string value)
    {
        var at = text.IndexOf(value, StringComparison.Ordinal);
        if (at < 0) return false;
        var (before, after) = (text[..at].TrimEnd(), text[(at + value.Length)..].TrimStart(' '));
        return before.EndsWith(",\"", StringComparison.Ordinal) && after.StartsWith('"')
            && (after.Length == 1 || after[1] is ',' or '\n' or '\r');
    }

    private static IEnumerable<string> Marks(string text)
    {
        for (var at = text.IndexOf('@', StringComparison.Ordinal); at >= 0 && at + 6 <= text.Length; at = text.IndexOf('@', at + 1))
        {
            var mark = text.Substring(at, 6);
            if (mark[5] == '@' && mark[1] is 'D' or 'L' && mark[2..5].All(char.IsAsciiDigit)) yield return mark;
        }
    }

    private static void Show(JumpLog read)
    {
        var accuracy = SeasonAccuracy.Of(read, new AccuracyOptions { Replicates = 200 });
        foreach (var result in new ShownResult[] { accuracy.Glance, accuracy.Rates, accuracy.Changes, accuracy.Conclusions,
            accuracy.Cautions, read.Intake, read.Intake.QuarantineTable, read.Intake.SetAsideTable })
        {
            var html = new StringWriter();
            result.WriteHtml(html);
            Assert.NotEmpty(result.ToString());
            Assert.All(result.Tables.SelectMany(t => t.Rows).SelectMany(r => r), cell => Assert.True(cell switch
            {
                double x => double.IsFinite(x),
                Estimate e => double.IsFinite(e.Value) && (e.Range is not { } r || (double.IsFinite(r.Low) && double.IsFinite(r.High))),
                _ => true,
            }, $"{cell}"));
            Assert.DoesNotContain("<script", html.ToString(), StringComparison.Ordinal);
            Assert.All(result.Tables, t => Assert.NotEmpty(t.ToCsv()));
        }
    }
}
