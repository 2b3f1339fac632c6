//! The accessibility audit: axe-core (Deque Systems, MPL-2.0), rules of WCAG 2.2 A and AA and its best practices, contrast
//! included.

use serde_json::Value;

use crate::Stop;
use crate::driver::Driver;

/// Runs the audit and hands back `[{ id, help, nodes: [[target, why]] }]`.
const RUN: &str = r#"
const done = arguments[arguments.length - 1];
axe.run(document, {
  resultTypes: ["violations"],
  runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
}).then(
  (found) => done(found.violations.map((rule) => ({
    id: rule.id,
    help: rule.help,
    nodes: rule.nodes.map((node) => [node.target.join(" "), node.any.concat(node.all, node.none).map((check) => check.message).join("; ")]),
  }))),
  (error) => done([{ id: "audit", help: String(error), nodes: [] }]),
);
"#;

/// How many places of one rule are told.
const TOLD: usize = 4;

pub(super) async fn violations(driver: &Driver, rules: &str) -> Result<Vec<String>, Stop> {
    driver.ask(rules).await?;
    let found = driver.client.execute_async(RUN, Vec::new()).await?;
    let found = found.as_array().ok_or("the audit returned no list")?;
    Ok(found.iter().flat_map(told).collect())
}

fn told(rule: &Value) -> Vec<String> {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let nodes = rule["nodes"].as_array().cloned().unwrap_or_default();
    let mut lines = vec![format!("{}: {} ({})", text(&rule["id"]), text(&rule["help"]), nodes.len())];
    lines.extend(nodes.iter().take(TOLD).map(|node| format!("  {}: {}", text(&node[0]), text(&node[1]))));
    lines
}
