namespace JumpAnalytics;

/// <summary>Which of day and month comes first in a date such as 6/1/2031.</summary>
internal enum DayOrder
{
    Unknown, MonthFirst, DayFirst,
}
