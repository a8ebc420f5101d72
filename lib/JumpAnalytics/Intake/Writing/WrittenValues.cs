using NodaTime.Text;

namespace JumpAnalytics;

/// <summary>Values whose written form reads back as the same number to the last bit.</summary>
internal static class WrittenValues
{
    /// <summary>Neighbouring doubles tried on each side.</summary>
    private const int Neighbours = 64;

    private static readonly LocalDateTimePattern _time = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss;FFFFFFFFF");
    private static readonly OffsetPattern _wholeMinutes = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    /// <summary>Date and time with the offset; the date alone where no time of day is recorded.</summary>
    public static string Time(Drop drop) => !drop.TimeRecorded ? LocalDatePattern.Iso.Format(drop.Time.Date)
        : _time.Format(drop.Time) + (drop.UtcOffset switch
    {
        null => "",
        { Seconds: 0 } => "Z",
        { } offset => offset.Seconds % 60 == 0 ? _wholeMinutes.Format(offset) : OffsetPattern.GeneralInvariant.Format(offset),
    });

    /// <summary>Minutes that make the same seconds again.</summary>
    public static double? Minutes(double? seconds)
    {
        if (seconds is not { } s) return null;
        var unit = MeasureUnit.Times["min"];
        return Near(unit.FromSi(s), m => unit.ToSi(m) == s);
    }

    /// <summary>
    /// Whether a landing keeps a distance that is not to the last bit the length of its east and north: it was
    /// recorded as distance and bearing.
    /// </summary>
    public static bool IsPolar(Landing landing) => landing.Miss is { } miss && landing.MissDistance != miss.Length;

    /// <summary>Degrees true that with the distance make the same east and north again.</summary>
    public static double? Bearing(Landing landing) => landing is { Miss: { } miss, MissDistance: { } distance }
        ? Near(miss.Direction?.Degrees ?? 0,
            b => b is >= 0 and < 360 && LocalVector.FromPolar(distance, JumpAnalytics.Bearing.FromDegrees(b)) == miss)
        : null;

    /// <summary>The double nearest to a value that fits; the value itself when none does.</summary>
    private static double Near(double value, Predicate<double> fits)
    {
        var (up, down) = (value, value);
        for (var i = 0; i <= Neighbours; i++)
        {
            if (fits(up)) return up;
            if (fits(down)) return down;
            (up, down) = (Math.BitIncrement(up), Math.BitDecrement(down));
        }
        return value;
    }
}
