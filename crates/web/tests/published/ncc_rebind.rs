//! NCC Group, Preventing DNS Rebinding Attacks (published). standards.toml, host_check: six rows; the source's allowlist is
//! 127.0.0.1:3000 and localhost:3000, exact.
//!
//! Known misses, two of six: `localhost` without a port and `127.0.0.1` with another port are let in here, where the source
//! rejects them. Rebinding points a *name* of the attacker's at this machine; an address and `localhost` are no such name
//! (RFC 6761, 6.3), whatever the port, and a house on the home network is opened by addresses that nobody can list before.

use crate::answered;

#[tokio::test]
async fn host_check() {
    let rows = [
        ("127.0.0.1:3000", true, true),
        ("localhost:3000", true, true),
        ("evil.example:3000", false, false),
        ("localhost", false, true),
        ("127.0.0.1:3001", false, true),
        ("", false, false),
    ];
    for (host, published, ours) in rows {
        for method in ["GET", "POST"] {
            let status = answered(method, &[("host", host)]).await;
            assert_eq!(status.is_success(), ours, "{method} {host:?}: {status}; published: {published}");
        }
    }
    let misses = rows.iter().filter(|(_, published, ours)| published != ours).count();
    assert_eq!(misses, 2, "the misses are those named above");
}
