using Microsoft.DotNet.Interactive;

namespace JumpAnalytics;

/// <summary>Lets a kernel that loads the library as a package call <see cref="NotebookHost.Init"/> by itself.</summary>
public sealed class KernelExtension : IKernelExtension
{
    /// <inheritdoc/>
    public Task OnLoadAsync(Kernel kernel)
    {
        NotebookHost.Init();
        return Task.CompletedTask;
    }
}
