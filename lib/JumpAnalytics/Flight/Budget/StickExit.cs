namespace JumpAnalytics;

/// <summary>Where each jumper of a stick left the aircraft.</summary>
public static class StickExit
{
    /// <summary>Actual exit of a jumper relative to the spot, metres: the recorded exit moved along the run.</summary>
    /// <param name="drop">The pass, with its recorded exit, run heading, ground speed and exit spacing.</param>
    /// <param name="exitOrder">Place of the jumper in the stick, 1 = first out; null when not recorded.</param>
    /// <param name="referenceOrder">Place of the jumper whose exit was recorded.</param>
    /// <returns>The exit, or what is missing to tell it.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The reference order is below 1.</exception>
    public static BudgetPart Of(Drop drop, int? exitOrder, int referenceOrder = 1)
    {
        Guard.AtLeast(referenceOrder, 1);
        if (drop.ActualExit is not { } recorded) return BudgetPart.Unknown("the actual exit was not recorded");
        if (exitOrder is not { } order) return BudgetPart.Unknown("the exit order was not recorded");
        if (order == referenceOrder) return BudgetPart.Known(recorded);
        if (drop.RunHeading is not { } heading) return BudgetPart.Unknown("the run heading was not recorded");
        if (drop.GroundSpeed is not { } speed) return BudgetPart.Unknown("the ground speed was not recorded");
        if (drop.ExitSpacing is not { } spacing) return BudgetPart.Unknown("the exit spacing was not recorded");
        return BudgetPart.Known(recorded + LocalVector.FromPolar(speed * spacing * (order - referenceOrder), heading));
    }
}
