using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>Reads records and says what would be refused and why; nothing is written.</summary>
internal static class CheckCommand
{
    public const string Name = "check";

    private static readonly Argument<string> _data = new("data")
    {
        Description = "Folder of the records, or one flat table.",
        Validators = { result => { if (result.Tokens is [var token] && !Path.Exists(token.Value))
            result.AddError($"'{token.Value}' is not there."); } },
    };

    public static Command For(Places places)
    {
        var command = new Command(Name, "Reads records and says what would be refused and why; writes nothing.") { _data };
        command.SetAction(async parsed =>
        {
            var path = LibraryCall.Literal(Path.GetFullPath(parsed.GetRequiredValue(_data)));
            var text = await LibraryCall.PrintAsync(places,
                $"var log = JumpLog.Read({path}); Console.WriteLine(log); Console.WriteLine(log.Intake.Account); "
                    + "var checks = RecordChecks.Of(log); Console.WriteLine(checks.Reading); "
                    + "foreach (var point in checks.Points) Console.WriteLine(\"- \" + point); "
                    + "Console.Write(log.Intake.RowsQuarantined);");
            var end = text.LastIndexOf('\n') + 1;
            Console.Write(text[..end]);
            return text[end..] == "0" ? 0 : CommandLine.RowsRefused;
        });
        return command;
    }
}
