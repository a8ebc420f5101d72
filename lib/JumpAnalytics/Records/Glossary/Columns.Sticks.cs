namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        RunOf = new("run", "run", CellFormat.Text, "How the run lies to the forecast drift."),
        Jumpers = new("jumpers", "jumpers", CellFormat.Count, "Jumpers of the pass."),
        AllInside = new("all_inside", "all inside", CellFormat.ShareRange, "Probability that the whole stick is inside the target radius."),
        OneOutside = new("one_outside", "at most one outside", CellFormat.ShareRange,
            "Probability that no more than one of the stick is outside."),
        ExpectedOutside = new("expected_outside", "outside, mean", CellFormat.Number,
            "Expected number of the stick outside the target radius."),
        Sticks = new("sticks", "sticks", CellFormat.Count, "Sticks that can be told wholly inside or not."),
        SticksInside = new("sticks_inside", "wholly inside", CellFormat.Count,
            "Sticks of which every jumper was inside the target radius."),
        ObservedInside = new("observed_inside", "observed", CellFormat.ShareRange,
            "Share of the sticks that were wholly inside, with a between-mission interval."),
        ModelledInside = new("modelled_inside", "modelled", CellFormat.Share, "Mean probability of the model for the same sticks."),
        IndependentInside = new("independent_inside", "if independent", CellFormat.Share,
            "What independent jumpers of the same landing rate would give."),
        WantedAll = new("wanted", "wanted", CellFormat.Share, "The reader's wanted probability that the whole stick is inside."),
        LargestJumpers = new("largest", "largest stick", CellFormat.Count,
            "Jumpers of the largest stick that keeps it; 0 when a single one does not."),
        LargestLow = new("largest_low", "from", CellFormat.Count, "Lower end of its interval."),
        LargestHigh = new("largest_high", "to", CellFormat.Count, "Upper end of its interval.");
}
