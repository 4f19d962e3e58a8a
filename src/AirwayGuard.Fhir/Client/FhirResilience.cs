using Microsoft.Extensions.Http.Resilience;
using Polly;
using Polly.Retry;
using Polly.Timeout;

namespace AirwayGuard.Fhir.Client;

/// <summary>Retry, circuit breaker and per-attempt time-out of every call, with the clock and randomness handed in.</summary>
internal static class FhirResilience
{
    public static void Configure(ResiliencePipelineBuilder<HttpResponseMessage> pipeline, FhirClientOptions options, TimeProvider clock, Jitter jitter)
    {
        pipeline.TimeProvider = clock;
        if (options.Retries > 0)
        {
            pipeline.AddRetry(new HttpRetryStrategyOptions
            {
                MaxRetryAttempts = options.Retries,
                Delay = TimeSpan.FromMilliseconds(options.RetryDelayMilliseconds),
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                // The handler's own reading of Retry-After looks at the machine's clock.
                ShouldRetryAfterHeader = false,
                DelayGenerator = arguments => ValueTask.FromResult(arguments.Outcome.Result is { } response ? RetryAfter.Of(response, clock) : null),
                Randomizer = jitter.Next,
                ShouldHandle = arguments => ValueTask.FromResult(MayRetry(arguments, options, clock)),
            });
        }

        pipeline
            .AddCircuitBreaker(new HttpCircuitBreakerStrategyOptions
            {
                FailureRatio = options.BreakerFailureRatio,
                MinimumThroughput = options.BreakerMinimumAttempts,
                SamplingDuration = TimeSpan.FromSeconds(options.BreakerSamplingSeconds),
                BreakDuration = TimeSpan.FromSeconds(options.BreakerOpenSeconds),
                ShouldHandle = arguments => ValueTask.FromResult(IsAway(arguments.Outcome)),
            })
            .AddTimeout(TimeSpan.FromSeconds(options.AttemptTimeoutSeconds));
    }

    // A server that answers 500 to one question may answer all others: the circuit opens where it is away or overloaded.
    private static bool IsAway(Outcome<HttpResponseMessage> outcome) => outcome.Exception is HttpRequestException or TimeoutRejectedException or IOException
        || (outcome.Result is { } response && (int)response.StatusCode is 408 or 429 or 502 or 503 or 504);

    private static bool MayRetry(RetryPredicateArguments<HttpResponseMessage> arguments, FhirClientOptions options, TimeProvider clock)
    {
        var outcome = arguments.Outcome;
        var request = arguments.Context.GetRequestMessage() ?? outcome.Result?.RequestMessage;
        if (request is null || !MayRepeat(request))
        {
            return false;
        }

        if (outcome.Exception is { } exception)
        {
            return exception is HttpRequestException or TimeoutRejectedException or IOException;
        }

        return outcome.Result is { } response && (int)response.StatusCode is 408 or 429 or >= 500 and not 501
            && (RetryAfter.Of(response, clock) ?? TimeSpan.Zero) <= TimeSpan.FromSeconds(options.LongestInlineWaitSeconds);
    }

    // A second POST without If-None-Exist would stand beside the first; a PUT here always carries If-Match.
    private static bool MayRepeat(HttpRequestMessage request) =>
        request.Method == HttpMethod.Get || (request.Options.TryGetValue(FhirHttp.MayRepeat, out var may) && may);
}
