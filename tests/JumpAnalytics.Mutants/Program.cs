using System.Globalization;
using JumpAnalytics.Mutants;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
MutationCommand command;
try
{
    command = MutationCommand.From(args);
}
catch (ArgumentException wrong)
{
    Console.Error.WriteLine(wrong.Message);
    return 2;
}
return command.Run();
