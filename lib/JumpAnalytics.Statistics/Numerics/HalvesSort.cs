namespace JumpAnalytics.Statistics;

/// <summary>Sorts many numbers on two cores.</summary>
internal static class HalvesSort
{
    /// <summary>Numbers below which one core is as fast.</summary>
    private const int Few = 50_000;

    /// <summary>Sorts in place: two halves at once, then merged.</summary>
    public static void Sort(double[] values)
    {
        if (values.Length < Few)
        {
            Array.Sort(values);
            return;
        }
        var middle = values.Length / 2;
        var first = values[..middle];
        Parallel.Invoke(() => Array.Sort(first), () => Array.Sort(values, middle, values.Length - middle));
        // what is left of the second half stays where it is
        for (int i = 0, j = middle, at = 0; i < first.Length; at++)
            values[at] = j < values.Length && values[j] < first[i] ? values[j++] : first[i++];
    }
}
