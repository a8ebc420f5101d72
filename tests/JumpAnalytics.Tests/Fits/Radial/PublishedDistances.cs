using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Readings of public data sets, in their own units; 12 measured, 12+ beyond, 12-15 between, *3 three times.</summary>
internal static class PublishedDistances
{
    /// <summary>72 arrows, x and y: data set archery1 of the R package MSQC.</summary>
    public const string ArrowPlaces = """
        24.14,-9.55 28.55,6.57 3.97,0.46 28.57,26.84 -3.43,8.57 9.68,16.33 -5.95,20.73 17.32,4.59 -0.48,-7.72 -18.42,-5.64 17.6,22.41 15.35,27.67
        -7.8,8.1 9.16,11.9 23.03,10.49 26.28,36.09 -11.11,0.32 13.24,13.65 -1.28,-0.84 -6.96,22.47 3.85,11.74 1.56,14.17 -3.81,6.21 7.54,7.89
        21.61,21.65 15.99,3.22 -13.23,-0.7 8.16,12.92 7.21,4.75 12.31,8.36 4.64,0.5 6.23,-2.55 0.31,4.25 24.35,11.33 7.7,-6.36 4.66,26.49
        6.57,-8.07 12.42,19.56 -9.13,-2.2 10.13,-2.86 6.62,19.51 4.16,7.53 -2.25,-5.03 10.25,-16.6 -6.98,-8.48 -1.62,-13.87 -0.46,-8.14 1.92,-8.63
        13.02,-0.93 11.06,20.99 17.68,4.02 -10.19,-14.7 0.48,-7.31 3.92,10.3 5.63,10.19 11.07,9.47 17.75,9.64 0.42,8.33 15.66,3.56 10.6,12.34
        11.01,4.43 -2.05,-9.49 10.01,9.01 8.78,11.68 -1.71,-6.98 7.43,-8.53 6.19,10.63 6.05,7.68 7.06,13.98 -1.99,12.16 25.33,8.37 12.71,-13.22
        """;

    /// <summary>The same arrows counted in rings.</summary>
    public const string ArrowRings = "0-5*4 5-10*16 10-20*35 20-30*13 30+*4";

    /// <summary>Hours to failure of 70 diesel fans (Nelson 1982; Meeker and Escobar 1998): genfan of the R package survival.</summary>
    public const string Fans = """
        450 460+ 1150*2 1560+ 1600 1660+ 1850+*5 2030+*3 2070*2 2080 2200+ 3000+*4 3100 3200+ 3450 3750+*2 4150+*4 4300+*4 4600 4850+*4 5000+*3
        6100+*3 6100 6300+ 6450+*2 6700+ 7450+ 7800+*2 8100+*2 8200+ 8500+*3 8750+*2 8750 9400+ 9900+ 10100+*3 11500+
        """;

    /// <summary>Days of 26 patients: ovarian of the R package survival.</summary>
    public const string Ovarian = "59 115 156 421+ 431 448+ 464 475 477+ 563 638 744+ 769+ 770+ 803+ 855+ 1040+ 1106+ 1129+ 1206+ 1227+ 268 329 353 365 377+";

    /// <summary>Months to the cracking of 167 parts, by inspection (Nelson 1982); cracks of the R package survival.</summary>
    public const string Cracks = "0-6.12*5 6.12-19.92*16 19.92-29.64*12 29.64-35.4*18 35.4-39.72*18 39.72-45.24*2 45.24-52.32*6 52.32-63.48*17 63.48+*73";

    /// <summary>Lethal salinities of 108 species: salinity of the R package fitdistrplus.</summary>
    public const string Salinity = """
        20+*8 21.5 15-30 20-25 23.7 25+*5 20-30*3 3.2-47*2 26.1 26.2 25-30 29.1*2 30+*10 30 30-35*2 35 35+*2 25-47 30-47 30-50 35-47 43.9 35-55 45.7
        47+*3 47*2 49 0.1+*5 0.23+ 3.2+*3 6.4+*6 3.2-12.8 6.4-12.8 0.1-20 3.2-20 12.6 12.8*2 12.8+*10 12.8-15*2 15+*7 15*3 6.4-25 15-20 6.4-30
        12.8-25*2 3.2-35 15-25 12.8-20
        """;

    /// <summary>Concentrations of fluazinam harmful to 14 species: fluazinam of the R package fitdistrplus.</summary>
    public const string Fluazinam = "3.8 33.6 87 1700+ 640 1155+ 113 129 586 1856+ 1.6 4.8 82 155";

    /// <summary>Servings of ground beef, grams, 254: groundbeef of the R package fitdistrplus.</summary>
    public const string GroundBeef = """
        10 11.5 17 20*8 24*2 25*7 25.5*2 26 30*6 32 40*18 44 50*49 51*11 52.5 60*6 64 65 70*3 75*5 79*3 80*54 90 100*19 105*13 115*2 117 120 125 130*26
        150*3 160 200*3
        """;

    /// <summary>Wind speeds of 153 days, miles per hour: airquality of R.</summary>
    public const string Wind = """
        1.7 2.3 2.8 3.4 4 4.1 4.6*4 5.1*3 5.7*3 6.3*8 6.9*9 7.4*10 8*11 8.6*8 9.2*8 9.7*11 10.3*11 10.9*8 11.5*15 12*4 12.6*3 13.2*2 13.8*5 14.3*6
        14.9*8 15.5*3 16.1 16.6*3 18.4 20.1 20.7
        """;

    public static IReadOnlyList<DownwindVector> Arrows { get; } =
        [.. Words(ArrowPlaces).Select(w => w.Split(',')).Select(p => new DownwindVector(Number(p[0]), Number(p[1])))];

    public static DistanceSample Sample(string readings, double unit = 1) => DistanceSample.Of(Readings(readings, unit));

    public static IEnumerable<DistanceReading> Readings(string text, double unit = 1) => Words(text).SelectMany(word =>
    {
        var (what, count) = word.Split('*') is [var one, var times] ? (one, int.Parse(times, CultureInfo.InvariantCulture)) : (word, 1);
        var reading = what.EndsWith('+') ? DistanceReading.Beyond(unit * Number(what[..^1]))
            : what.Split('-') is [var low, var high] ? DistanceReading.Between(unit * Number(low), unit * Number(high))
            : DistanceReading.Exact(unit * Number(what));
        return Enumerable.Repeat(reading, count);
    });

    private static string[] Words(string text) => text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
