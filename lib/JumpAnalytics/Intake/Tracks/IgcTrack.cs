using System.Globalization;
using NodaTime;

namespace JumpAnalytics;

/// <summary>Fixes of an IGC file: date from an HFDTE record, one fix for each B record, midnight rolls the date over.</summary>
internal static class IgcTrack
{
    /// <summary>Letters of a B record without extensions.</summary>
    private const int Length = 35;

    public static Fit<RecordedTrack> Read(string path)
    {
        var (name, notes, fixes) =
            (Path.GetFileName(path), new List<TrackNote>(), new List<(Instant?, double?, GeoPosition, double?, double?)>());
        LocalDate? date = null;
        (int From, int Letters)? hundredths = null;
        var (bad, unfixed, lines, midnight) = (0, 0, 0, Duration.Zero);
        LocalTime? last = null;
        foreach (var line in File.ReadLines(path))
        {
            lines++;
            if (line.Length > 4096)
                return Fit<RecordedTrack>.Refused($"{name} can't be read as IGC: line {lines} has {line.Length} letters");
            if (line.StartsWith("HFDTE", StringComparison.Ordinal)) date = Date(line) ?? date;
            else if (line.StartsWith('I')) hundredths = Extension(line, "TDS") ?? hundredths;
            if (!line.StartsWith('B')) continue;
            if (Fix(line, hundredths) is not { } fix)
            {
                bad++;
                continue;
            }
            if (!fix.HasPlace)
            {
                unfixed++;
                continue;
            }
            if (last is { } before && fix.Time < before && (before - fix.Time).ToDuration().TotalHours > 12)
                midnight += Duration.FromDays(1);
            last = fix.Time;
            Instant? at = date is { } day ? day.At(fix.Time).InUtc().ToInstant() + midnight : null;
            fixes.Add((at, (fix.Time - LocalTime.Midnight).ToDuration().TotalSeconds + midnight.TotalSeconds,
                fix.Place, fix.Gps, fix.Barometer));
        }
        if (bad > 0) notes.Add(new TrackNote("records not readable", bad,
            $"{Rounding.Count(bad, "B record")} could not be read and {(bad == 1 ? "was" : "were")} left out."));
        if (unfixed > 0) notes.Add(new TrackNote("fixes without place", unfixed,
            $"{Rounding.Count(unfixed)} {(unfixed == 1 ? "fix had no position and was" : "fixes had no position and were")} left out."));
        if (date is null) notes.Add(new TrackNote("no date", 1, "The file has no HFDTE record, so its date is not known."));
        return fixes.Count == 0 && bad == 0
            ? Fit<RecordedTrack>.Refused($"{name} holds no B record, so it is no IGC track") : TrackFile.Made(name, "IGC", fixes, notes);
    }

    /// <summary>The date of <c>HFDTEddmmyy</c> or <c>HFDTEDATE:ddmmyy,nn</c>.</summary>
    private static LocalDate? Date(string line)
    {
        var digits = string.Concat(line.SkipWhile(c => !char.IsAsciiDigit(c)).TakeWhile(char.IsAsciiDigit));
        if (digits.Length < 6 || !Whole(digits, 0, 2, out var day) || !Whole(digits, 2, 2, out var month)
            || !Whole(digits, 4, 2, out var year)) return null;
        year += year < 80 ? 2000 : 1900;
        return month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month)
            ? new LocalDate(year, month, day) : null;
    }

    /// <summary>
    /// Where an extension stands in B records: <c>Inn</c> and for each first and last letter, counted from 1, and a code of three letters.
    /// </summary>
    private static (int From, int Letters)? Extension(string line, string code)
    {
        for (var at = 3; at + 7 <= line.Length; at += 7)
        {
            if (Whole(line, at, 2, out var from) && Whole(line, at + 2, 2, out var to) && line.AsSpan(at + 4, 3).SequenceEqual(code)
                && from > Length && to >= from) return (from - 1, to - from + 1);
        }
        return null;
    }

    private static (LocalTime Time, GeoPosition Place, bool HasPlace, double? Gps, double? Barometer)? Fix(string b,
        (int From, int Letters)? hundredths)
    {
        if (b.Length < Length || !Whole(b, 1, 2, out var hour) || !Whole(b, 3, 2, out var minute) || !Whole(b, 5, 2, out var second)
            || hour > 23 || minute > 59 || second > 59) return null;
        if (!Whole(b, 7, 2, out var latDegrees) || !Whole(b, 9, 5, out var latMinutes) || b[14] is not ('N' or 'S')
            || !Whole(b, 15, 3, out var lonDegrees) || !Whole(b, 18, 5, out var lonMinutes) || b[23] is not ('E' or 'W')) return null;
        if (!Height(b, 25, out var pressure) || !Height(b, 30, out var gps)) return null;
        var time = new LocalTime(hour, minute, second);
        if (hundredths is { } x && b.Length >= x.From + x.Letters && Whole(b, x.From, x.Letters, out var part))
            time = time.PlusMilliseconds((long)(1000 * part / Math.Pow(10, x.Letters)));
        var (lat, lon) = (latDegrees + latMinutes / 60000.0, lonDegrees + lonMinutes / 60000.0);
        if (lat > 90 || lon > 180) return null;
        var hasPlace = lat != 0 || lon != 0;
        var two = b[24] == 'A'; // a fix in two dimensions has no satellite height
        return (time, new GeoPosition(b[14] == 'S' ? -lat : lat, b[23] == 'W' ? -lon : lon), hasPlace, two ? gps : null,
            pressure == 0 && gps != 0 ? null : pressure);
    }

    private static bool Height(string text, int at, out double metres)
    {
        metres = 0;
        var negative = text[at] == '-';
        if (!Whole(text, negative ? at + 1 : at, negative ? 4 : 5, out var whole)) return false;
        metres = negative ? -whole : whole;
        return true;
    }

    private static bool Whole(string text, int at, int letters, out int value) =>
        int.TryParse(text.AsSpan(at, letters), NumberStyles.None, CultureInfo.InvariantCulture, out value);
}
