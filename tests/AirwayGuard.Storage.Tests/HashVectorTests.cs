using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Storage.Auditing;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>The hash and the digest of the audit trail against published vectors.</summary>
public sealed class HashVectorTests
{
    // NIST, examples with intermediate values for FIPS 180, SHA-256; the empty message and a million times "a" are of its test vectors.
    [Theory]
    [InlineData("", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")]
    [InlineData("abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1, "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")]
    [InlineData("a", 1_000_000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0")]
    public void TheHashIsThatOfTheVectors(string text, int times, string hash) =>
        Assert.Equal(hash, Convert.ToHexStringLower(SHA256.HashData(Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat(text, times))))));

    // RFC 4231 §4.2 to §4.4: HMAC-SHA-256. The key is the salt.
    [Theory]
    [InlineData("0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b", "4869205468657265", "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7")]
    [InlineData("4a656665", "7768617420646f2079612077616e7420666f72206e6f7468696e673f", "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843")]
    [InlineData("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", "dddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddddd", "773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe")]
    public void TheDigestOfABodyIsThatOfTheVectors(string salt, string body, string digest) =>
        Assert.Equal(digest, AuditChain.DigestOf(Convert.FromHexString(body), Convert.FromHexString(salt)));
}
