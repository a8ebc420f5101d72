namespace JumpAnalytics.Demo;

/// <summary>What happens from the exit to the ground. The record and the truth both come from here.</summary>
static class Descent
{
    public const double YdPerSecondPerMph = 1760 / 3600.0, YdPerSecondPerKt = 1852 / 0.9144 / 3600;

    /// <summary>Flies one stick. <paramref name="shared"/> is the mission's own draw of the error that its drops share.</summary>
    public static Touchdown[] Fly(Drop drop, (double Along, double Right) shared, Dice dice)
    {
        var (mission, canopy, cross) = (drop.Mission, drop.Mission.Canopy, drop.Mission.Terrain.CrossFactor);
        var worse = mission.Season == Planted.WorseSeason && drop.Band == Planted.WorseBand ? Planted.WorseFactor : 1;
        var downwind = Vec.Toward(drop.ForecastToDeg);
        var run = Vec.Toward(drop.RunDeg);

        var missionSd = double.Hypot(Planted.MissionErrorMph, Planted.MissionErrorPerMph * drop.WindMph);
        var dropSd = double.Hypot(Planted.DropErrorMph, Planted.AgeErrorMph * Math.Pow(drop.AgeMin, 1 / 3.0));
        var bias = mission.Spotter == Planted.BiasedSpotter ? Planted.BiasedSpotterReadsLowMph : 0;
        var alongMph = bias + worse * (missionSd * shared.Along + dropSd * dice.Normal());
        var rightMph = worse * cross * (missionSd * shared.Right + dropSd * dice.Normal());
        var forecastError = YdPerSecondPerMph * canopy.DescentS * (alongMph * downwind + rightMph * downwind.Right);
        var unsteeredDrift = drop.Forecast + forecastError;

        var groundSpeed = drop.GroundKt * YdPerSecondPerKt;
        var slip = Planted.ExitTimingSdS * groundSpeed * dice.Normal() * run + Planted.ExitAcrossSdYd * dice.Normal() * run.Right;
        var stickMiddle = (drop.Jumpers.Length - 1) / 2.0;
        Vec Exit(int order) => -1 * drop.Forecast + slip + groundSpeed * drop.SpacingS * (order - stickMiddle) * run;

        var landed = new Touchdown[drop.Jumpers.Length];
        for (var k = 0; k < landed.Length; k++)
        {
            var unsteeredMiss = Exit(k) + unsteeredDrift;
            var reach = canopy.ForwardMph * YdPerSecondPerMph * canopy.DescentS;
            var flown = Math.Min((1 - canopy.LeftShare) * unsteeredMiss.Length, reach) / Math.Max(unsteeredMiss.Length, 1e-9);
            var inTail = dice.Chance(Planted.TailShare);
            var (along, right) = OwnPart(inTail, drop.WindMph, dice);
            var steering = -flown * unsteeredMiss + worse * (along * downwind + cross * right * downwind.Right);
            var hungUp = dice.Chance(mission.Terrain.HangUpFactor * (inTail ? Planted.HangUpInTail : Planted.HangUpElsewhere));
            landed[k] = new Touchdown(Exit(0), unsteeredMiss + steering,
                hungUp) { Order = k, Exit = Exit(k), UnsteeredDrift = unsteeredDrift, Steering = steering };
        }
        return landed;
    }

    private static (double Along, double Right) OwnPart(bool inTail, double windMph, Dice dice)
    {
        if (!inTail)
        {
            var sd = Planted.OwnSdYd + Planted.OwnSdPerMph * windMph;
            return (sd * dice.Normal(), sd * dice.Normal());
        }
        var distance = Planted.TailMedianYd * Math.Exp(Planted.TailLogSd * dice.Normal());
        var (sin, cos) = Math.SinCos(2 * Math.PI * dice.Share());
        return (distance * cos, distance * sin);
    }
}
