namespace JumpAnalytics;

/// <summary>
/// Tells a notebook kernel how to show a type. Kernels of .NET Interactive look for an attribute of this name on the type,
/// so the library renders itself without depending on any of them.
/// </summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Struct)]
internal sealed class TypeFormatterSourceAttribute(Type formatterSourceType) : Attribute
{
    public Type FormatterSourceType { get; } = formatterSourceType;

    public string[] PreferredMimeTypes { get; set; } = ["text/html", ShownResult.TablesMimeType, "text/plain"];
}

/// <summary>The renderings of <see cref="ShownResult"/>; members are found by name.</summary>
internal sealed class ShownResultFormatters
{
    public IEnumerable<object> CreateTypeFormatters()
    {
        yield return new Rendering("text/html", (result, writer) => result.WriteHtml(writer));
        yield return new Rendering(ShownResult.TablesMimeType, (result, writer) => writer.Write(result.TablesAsJson()));
        yield return new Rendering("text/plain", (result, writer) => writer.Write(result.ToString()));
    }

    internal sealed class Rendering(string mimeType, Action<ShownResult, TextWriter> write)
    {
        public string MimeType => mimeType;

        public bool Format(object instance, TextWriter writer)
        {
            if (instance is not ShownResult result) return false;
            write(result, writer);
            return true;
        }
    }
}
