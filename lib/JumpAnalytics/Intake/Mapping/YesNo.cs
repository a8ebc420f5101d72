namespace JumpAnalytics;

/// <summary>The words for yes and no that a log may use.</summary>
internal static class YesNo
{
    /// <summary>Yes, no, or null for any other word.</summary>
    public static bool? Read(string text) => text.ToLowerInvariant() switch
    {
        "yes" or "y" or "true" or "1" => true,
        "no" or "n" or "false" or "0" => false,
        _ => null,
    };
}
