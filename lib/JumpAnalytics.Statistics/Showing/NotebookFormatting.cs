namespace JumpAnalytics.Statistics;

/// <summary>
/// Tells a notebook kernel how to show a type. Kernels of .NET Interactive look for an attribute of this name on the type,
/// so the library renders itself without depending on any of them.
/// </summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Struct)]
[System.ComponentModel.EditorBrowsable(System.ComponentModel.EditorBrowsableState.Never)]
public sealed class TypeFormatterSourceAttribute(Type? formatterSourceType = null) : Attribute
{
    /// <summary>The type whose <c>CreateTypeFormatters</c> the kernel calls.</summary>
    public Type FormatterSourceType { get; } = formatterSourceType ?? typeof(ValueFormatters);

    /// <summary>The renderings that a notebook keeps.</summary>
    public string[] PreferredMimeTypes { get; set; } =
        formatterSourceType is null ? ["text/html", "text/plain"] : ["text/html", ShownResult.TablesMimeType, "text/plain"];
}

/// <summary>A rendering that a kernel calls; members are found by name.</summary>
internal sealed class Rendering(string mimeType, Func<object, Action<TextWriter>?> of)
{
    public string MimeType => mimeType;

    public bool Format(object instance, TextWriter writer)
    {
        if (of(instance) is not { } write) return false;
        write(writer);
        return true;
    }
}

/// <summary>The renderings of <see cref="ShownResult"/>.</summary>
internal sealed class ShownResultFormatters
{
    public IEnumerable<object> CreateTypeFormatters()
    {
        yield return new Rendering("text/html", r => r is ShownResult result ? result.WriteHtml : null);
        yield return new Rendering(ShownResult.TablesMimeType, r => r is ShownResult result ? w => w.Write(result.TablesAsJson()) : null);
        yield return new Rendering("text/plain", r => r is ShownResult result ? w => w.Write(result.ToString()) : null);
    }
}

/// <summary>The renderings of every other public value of the library: what <see cref="Showing.Of"/> makes of it, without a file.</summary>
internal sealed class ValueFormatters
{
    public IEnumerable<object> CreateTypeFormatters()
    {
        yield return new Rendering("text/html", value => Showing.Of(value).WriteHtml);
        yield return new Rendering("text/plain", value => w => w.Write(Showing.Of(value).ToString()));
    }
}
