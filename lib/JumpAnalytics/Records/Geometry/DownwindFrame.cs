namespace JumpAnalytics;

/// <summary>The axes of one drop: axis 1 points where its forecast drift goes, axis 2 is 90° to the right of it.</summary>
[TypeFormatterSource]
public sealed class DownwindFrame
{
    private readonly double _east;
    private readonly double _north;

    private DownwindFrame(double east, double north) => (_east, _north) = (east, north);

    /// <summary>The frame of a forecast drift, or null when the drift has no length and so no direction.</summary>
    /// <param name="forecastDrift">Where the forecast says an unsteered canopy goes, from exit to landing, metres.</param>
    public static DownwindFrame? Along(LocalVector forecastDrift)
    {
        var length = forecastDrift.Length;
        return length > 0 && double.IsFinite(length)
            ? new DownwindFrame(forecastDrift.East / length, forecastDrift.North / length)
            : null;
    }

    /// <summary>Turns an east/north displacement into downwind/right.</summary>
    /// <param name="v">Metres east and north.</param>
    public PlaneVector ToDownwind(LocalVector v) =>
        new(v.East * _east + v.North * _north, v.East * _north - v.North * _east);

    /// <summary>Turns the covariance of an east/north displacement into that of its downwind/right parts.</summary>
    /// <param name="c">Square metres; first axis east, second north.</param>
    public PlaneCovariance ErrorDownwind(PlaneCovariance c) => Turned(c);

    /// <summary>Turns the covariance of a downwind/right displacement into that of its east/north parts.</summary>
    /// <param name="c">Square metres; first axis downwind, second right.</param>
    public PlaneCovariance ErrorEastNorth(PlaneCovariance c) => Turned(c);

    /// <summary>The axes change hands with the turn, so that there and back are the same.</summary>
    private PlaneCovariance Turned(PlaneCovariance c) => new(
        _east * _east * c.VarianceAlong + _north * _north * c.VarianceAcross + 2 * _east * _north * c.Covariance,
        _north * _north * c.VarianceAlong + _east * _east * c.VarianceAcross - 2 * _east * _north * c.Covariance,
        _east * _north * (c.VarianceAlong - c.VarianceAcross) + (_north * _north - _east * _east) * c.Covariance);

    /// <summary>Turns a downwind/right displacement back into east/north.</summary>
    /// <param name="v">Metres downwind and right.</param>
    public LocalVector ToLocal(PlaneVector v) =>
        new(v.Along * _east + v.Across * _north, v.Along * _north - v.Across * _east);
}
