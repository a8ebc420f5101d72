namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        Question = new("question", "question", CellFormat.Text, "Which rate: landing, forecast or recoverable."),
        RateOver = new("rate_over", "over", CellFormat.Text, "What the rate is a share of: landings or drops."),
        Cases = new("cases", "n", CellFormat.Count, "How many of them there are."),
        AtLeast = new("at_least", "at least", CellFormat.ShareRange,
            "The rate if everything undetermined had gone wrong, with a between-mission interval."),
        AtMost = new("at_most", "at most", CellFormat.ShareRange,
            "The rate if everything undetermined had gone right, with a between-mission interval."),
        BoundWidth = new("width", "undetermined", CellFormat.Share, "At most less at least: the share that the records can't tell."),
        ShareOfReach = new("share_of_reach", "steered no farther than (share of reach)", CellFormat.Share,
            "The part of its reach that no canopy is supposed to have passed."),
        Contradicting = new("contradicting", "contradicting", CellFormat.Count,
            "Drops whose landings lie too far apart for one drift and so little steering.");

    public static readonly TableColumn
        RateReadAs = new("records_read", "records read", CellFormat.Text, "How the records are read for this rate."),
        SpreadRate = new("rate_spread", "landing rate, spread", CellFormat.ShareRange,
            "The rate with rounded distances spread over their rounding, with a between-mission interval; blank where none was rounded."),
        SpreadProbability = new("probability_spread", "probability, spread", CellFormat.Probability,
            "The same probability for the rate with distances spread."),
        SpreadPValue = new("p_value_spread", "p, spread", CellFormat.PValue, "The same p for the rate with distances spread."),
        BenchmarkRate = new("benchmark_rate", "benchmark", CellFormat.Share, "The rate claimed."),
        ProbabilityAtLeast = new("probability_at_least", "probability of at least the benchmark", CellFormat.Probability,
            "Probability that the true rate is the benchmark or more."),
        PValue = new("p_value", "p", CellFormat.PValue,
            "Chance of records as far from the benchmark as these, or farther, if the true rate were the benchmark."),
        TrueRate = new("true_rate", "true rate supposed", CellFormat.Share, "The true rate that is to be told from the benchmark."),
        WantedPower = new("power_wanted", "power wanted", CellFormat.Share,
            "Share of seasons in which the interval should exclude the benchmark."),
        MissionsByFormula = new("missions_by_formula", "missions by formula", CellFormat.Count, "Missions needed by the formula."),
        MissionsBySimulation = new("missions_by_simulation", "missions by simulation", CellFormat.Count,
            "Missions needed by simulated seasons; blank when more than 20,000."),
        PowerAtFormula = new("power_at_formula", "power of so many by formula", CellFormat.Share,
            "Share of simulated seasons of the formula's size whose interval excludes the benchmark."),
        ChangeSameMix = new("change_same_mix", "change, same mix (points)", CellFormat.ShareChange,
            "Later rate less earlier rate, both at one mix of wind bands and terrains."),
        SlopeBySeason = new("change_per_season", "change a season (points)", CellFormat.ShareChange,
            "Slope of a straight line through the rates of all seasons, from a season to the next."),
        SlopePValue = new("slope_p_value", "p of a steady rate", CellFormat.PValue,
            "Chance of a line as steep or steeper if the rate were steady."),
        SpreadOfSeasons = new("between_season_sd", "spread between seasons", CellFormat.ShareRange,
            "Standard deviation of the true rates of the seasons, chance taken out."),
        SeasonSpreadPValue = new("spread_p_value", "p of no spread", CellFormat.PValue,
            "Chance of seasons that differ as much or more if the rate were steady."),
        NextSeason = new("next_season", "next season", CellFormat.ShareRange,
            "Rate that a season of the usual size may show if no trend goes on."),
        MixCovered = new("mix_covered", "mix covered", CellFormat.Share, "Share of all landings that lie in the cells compared."),
        MoreMissions = new("more_missions", "more missions needed", CellFormat.Count, "Missions needed less missions there are.");

    public static readonly TableColumn
        LearntFrom = new("learnt_from", "learnt from", CellFormat.Text, "What the forecaster could learn from before it stated anything."),
        Forecaster = new("forecaster", "forecaster", CellFormat.Text, "Who states the chance of a hit, or the distribution of misses."),
        ScoreName = new("scored_by", "scored by", CellFormat.Text, "How what was stated is held against what came; less is better."),
        MeanScore = new("mean_score", "mean score", CellFormat.Precise, "Mean over the landings scored; less is better."),
        SkillOverBenchmark = new("skill_over_benchmark", "skill over the benchmark", CellFormat.ShareRange,
            "1 less the score over that of always stating the benchmark."),
        SkillOverBase = new("skill_over_base", "skill over the base's record", CellFormat.ShareRange,
            "1 less the score over that of the base's own earlier record."),
        StatedFrom = new("stated_from", "stated from", CellFormat.Share, "Least chance stated in the stretch."),
        StatedTo = new("stated_to", "to", CellFormat.Share, "Greatest chance stated in the stretch."),
        CameRate = new("came", "came", CellFormat.Share, "Share of hits after these forecasts."),
        BandIfRight = new("if_right", "if right", CellFormat.ShareRange,
            "Middle of what was stated, and where the rate would lie by chance if the forecasts were right.");
}
