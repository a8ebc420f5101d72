using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests;

/// <summary>
/// The numerical library's quantiles throw, or lose their digits, next to 0 and 1 and for many degrees of freedom: one file calls them.
/// </summary>
public sealed partial class QuantileLayerTests
{
    [Fact]
    public void No_other_file_calls_the_numerical_librarys_quantile_functions()
    {
        var files = SourceFiles.Below(SourceFiles.Lib, "*.cs").ToList();
        Assert.Equal(["QuantileOf.cs"], files.Where(f => Call().IsMatch(File.ReadAllText(f))).Select(Path.GetFileName));
    }

    [Theory]
    [InlineData("StudentT.InvCDF(0, 1, 3, 0.975)")]
    [InlineData("new Normal().InverseCumulativeDistribution(0.9)")]
    [InlineData("SpecialFunctions.ErfInv(0.3)")]
    [InlineData("SpecialFunctions.GammaLowerRegularizedInv(2, 0.3)")]
    [InlineData("Beta.Quantile(1, 2, 0.5)")]
    public void A_call_is_found(string call) => Assert.Matches(Call(), call);

    [GeneratedRegex(@"\b(InvCDF|InverseCumulativeDistribution|\w*(Erfc?|Regularized)Inv|ExcelFunctions"
        + @"|(StudentT|Normal|ChiSquared|FisherSnedecor|Beta|Gamma|Binomial)\.Quantile)\b")]
    private static partial Regex Call();
}
