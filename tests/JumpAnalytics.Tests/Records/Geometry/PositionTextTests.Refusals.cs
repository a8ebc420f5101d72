namespace JumpAnalytics.Tests.Geometry;

public partial class PositionTextTests
{
    [Theory]
    [InlineData("", "blank")]
    [InlineData("44 30.50", "latitude 44 and longitude 30.50, or one coordinate of 44 degrees 30.50 minutes")]
    [InlineData("44 30", "Write 44, 30 for the former")]
    [InlineData("44° 30.5'", "one coordinate of 44 degrees 30.5 minutes")]
    [InlineData("44.5", "1 number is not a latitude and a longitude")]
    [InlineData("44 30 15", "3 numbers are not")]
    [InlineData("44 30 15 116 15", "5 numbers are not")]
    [InlineData("44-116", "joins the numbers")]
    [InlineData("44.5-116.2", "joins the numbers")]
    [InlineData("44-30-116-15", "joins the numbers")]
    [InlineData("44.5 - 116.2", "a hyphen that stands alone")]
    [InlineData("44,5", "decimal comma or stand between")]
    [InlineData("44,116", "Write decimals with a point")]
    [InlineData("44,5 116,2", "Write decimals with a point")]
    [InlineData("44,512 N 116,254 W", "Write decimals with a point")]
    [InlineData("44,5,116,2", "Write decimals with a point")]
    [InlineData("44 60.000 N 116 15 W", "there are fewer than 60")]
    [InlineData("44 30 60 N 116 15 0 W", "there are fewer than 60")]
    [InlineData("44 75 N 116 15 W", "'75' minutes")]
    [InlineData("44.5 N, -116.2 W", "both a hemisphere letter and a plus or minus")]
    [InlineData("N-44.5 W116.2", "both a hemisphere letter and a plus or minus")]
    [InlineData("44.5 N, 116.2", "the other neither letter nor sign")]
    [InlineData("44.5 N 116.2", "the other neither letter nor sign")]
    [InlineData("44.5 N 116.2 N", "both halves are latitudes")]
    [InlineData("116.2 W 114.2 W", "both halves are longitudes")]
    [InlineData("N 44.5 116.2 W", "write a comma between")]
    [InlineData("-116.2, 44.5", "Latitude comes first")]
    [InlineData("90 00.001 N 116 15.000 W", "is outside -90 to 90")]
    [InlineData("44.5 N 180.1 W", "is outside -180 to 180")]
    [InlineData("4430.50 N 11615.20 W", "write them apart: 44 30.500")]
    [InlineData("44.5 30 N, 116.2 15 W", "Only the last number of a coordinate may have decimals")]
    [InlineData("44.30.50 N 116.15.20 W", "has only one")]
    [InlineData(".5 N 116 W", "a decimal point needs a digit on both sides")]
    [InlineData("44 30.5 N 116 15 20 W", "different forms")]
    [InlineData("44' N 116° W", "follows number 1, which is the degrees")]
    [InlineData("44° 30\" N 116° 15' W", "the sign \" of seconds follows number 2, which is the minutes")]
    [InlineData("°44 N, 116 W", "follows no number")]
    [InlineData("44 30 15 10 N, 116 W", "at most three numbers")]
    [InlineData("N 44 N, 116 W", "two hemisphere letters")]
    [InlineData("44 : N, 116 W", "':' stands between no two numbers")]
    [InlineData(": 44 N, 116 W", "stands between no two numbers")]
    [InlineData("44 30:, 116 W", "it ends with ':'")]
    [InlineData("44 -30, 116", "stands inside a coordinate")]
    [InlineData(", 116 W", "has no number")]
    [InlineData("44 N,", "has no number")]
    [InlineData("44.5 N 116.2 W WGS84", "A datum or remark goes into its own field")]
    [InlineData("Lat 44.5, Lon -116.2", "the letter L is not understood")]
    [InlineData("44.5# 116", "the character # is not understood")]
    [InlineData("44.5\u0007 116", "U+0007")]
    [InlineData("٤٤, ١١٦", "is not understood")]
    [InlineData("11 500000 4649776", "no band or hemisphere")]
    [InlineData("500000 4649776", "this looks like UTM")]
    [InlineData("UTM 500000 4649776", "this looks like UTM")]
    [InlineData("500000E 4649776N 11T", "this looks like UTM")]
    [InlineData("11T 500,000 4,649,776", "no commas within the numbers")]
    [InlineData("64 50 431 N 147 36 262 W", "44 30.431")]
    [InlineData("11T 4649776 500000", "Easting comes first")]
    [InlineData("11T 500000E 4649776E", "not labelled one E and one N")]
    [InlineData("11T 500000N 4649776", "not labelled one E and one N")]
    [InlineData("61T 500000 4649776", "zone 61 does not exist")]
    [InlineData("61 north 500000 4649776", "zone 61 does not exist")]
    [InlineData("11O 500000 4649776", "band O does not exist")]
    [InlineData("11Z 500000 4649776", "polar grid (UPS)")]
    [InlineData("11U 500000 4649776", "band U reaches from latitude 48 to 56, but the northing lies at 42")]
    [InlineData("11 north 500000 9400000", "polar grid (UPS)")]
    [InlineData("11 north 500000 9600000", "is not from 0 to 9500000")]
    [InlineData("11 south 500000 900000", "is not from 1000000 to 10000000")]
    [InlineData("11TNM532679984", "9 digits")]
    [InlineData("NM 53267 99845", "no grid zone")]
    [InlineData("ZAH 12345 12345", "polar grid (UPS)")]
    public void What_is_wrong_or_ambiguous_is_refused(string text, string reason)
    {
        var fit = PositionText.Read(text);
        Assert.False(fit.Success, $"{fit.Value}");
        Assert.Contains(reason, fit.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("44,5", "Write decimals with a point")]
    [InlineData("44.5 -116.2", "stands inside a coordinate")]
    [InlineData("44.5 116.2", "Only the last number of a coordinate may have decimals")]
    [InlineData("90.001", "is outside -90 to 90")]
    [InlineData("-44 N", "both a hemisphere letter and a plus or minus")]
    [InlineData("44 30-", "a hyphen that stands alone")]
    [InlineData("", "blank")]
    public void One_coordinate_is_refused(string text, string reason) =>
        Assert.Contains(reason, PositionText.ReadLatitude(text).Reason, StringComparison.Ordinal);

    [Fact]
    public void Long_and_missing_texts_are_refused()
    {
        Assert.Contains("at most 200", PositionText.Read(new string('4', 201)).Reason, StringComparison.Ordinal);
        Assert.Contains("outside", PositionText.ReadLatitude(new string('4', 200)).Reason, StringComparison.Ordinal);
        Assert.Contains("blank", PositionText.Read(null).Reason, StringComparison.Ordinal);
        Assert.Contains("blank", PositionText.ReadLongitude(null).Reason, StringComparison.Ordinal);
    }
}
