//! People named with a tap: clients write their display name into the body and their address into the formatted body.
//!
//! Where a message is of who may do what, the address is what counts: "add Tessa as helper".

use matrix_sdk::ruma::MatrixToUri;
use matrix_sdk::ruma::matrix_uri::MatrixId;
use serde_json::Value;

/// The body with the addresses of the people it names, where it speaks of roles; else as it is.
pub(super) fn with_addresses(body: String, content: &Value, own_user: &str) -> String {
    let lower = body.to_lowercase();
    let of_roles = ["helper", "keeper"].iter().any(|role| lower.contains(role))
        || ["remove ", "drop ", "block "].iter().any(|verb| lower.starts_with(verb));
    let Some(html) = content["formatted_body"].as_str().filter(|_| of_roles) else { return body };
    let mut told = body;
    for (address, name) in people(html) {
        if address != own_user
            && !name.is_empty()
            && !told.contains(&address)
            && let Some(at) = apart(&told, &name)
        {
            told.replace_range(at..at + name.len(), &address);
        }
    }
    told
}

/// Where a name stands as a word of its own.
fn apart(text: &str, name: &str) -> Option<usize> {
    let of_word = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    text.match_indices(name).map(|(at, _)| at).find(|at| {
        !of_word(text[..*at].chars().next_back()) && !of_word(text[at + name.len()..].chars().next())
    })
}

/// Who is linked to in a formatted body, and by what name.
fn people(html: &str) -> Vec<(String, String)> {
    html.split("<a ")
        .skip(1)
        .filter_map(|link| {
            let (_, href) = link.split_once("href=")?;
            let quote = href.chars().next().filter(|quote| matches!(quote, '"' | '\''))?;
            let (uri, rest) = href[1..].split_once(quote)?;
            let name = rest.split_once('>')?.1.split_once("</a>")?.0;
            let MatrixId::User(user) = MatrixToUri::parse(uri).ok()?.id().clone() else { return None };
            Some((user.to_string(), plain(name)))
        })
        .collect()
}

/// The five entities a name may be written with.
fn plain(name: &str) -> String {
    let named = [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&amp;", "&")];
    named.iter().fold(name.trim().to_owned(), |name, (entity, letter)| name.replace(entity, letter))
}

#[cfg(test)]
mod tests {
    use super::with_addresses;
    use serde_json::json;

    #[test]
    fn who_is_named_with_a_tap_is_known_by_address() {
        let pill = |id: &str, name: &str| format!("<a href=\"https://matrix.to/#/{id}\">{name}</a>");
        let rows = [
            (
                "add Tessa as a helper",
                pill("@tessa:example.org", "Tessa"),
                "add @tessa:example.org as a helper",
            ),
            (
                "add Tess &amp; as helper",
                pill("%40t%3Aexample.org", "Tess &amp;"),
                "add Tess &amp; as helper",
            ),
            (
                "add Tess & as helper",
                pill("%40t%3Aexample.org", "Tess &amp;"),
                "add @t:example.org as helper",
            ),
            ("Tessa watered the pots", pill("@tessa:example.org", "Tessa"), "Tessa watered the pots"),
            (
                "leafhold: make Bo a keeper",
                pill("@leafhold:example.org", "leafhold"),
                "leafhold: make Bo a keeper",
            ),
            ("add Tessa as helper", pill("#plot:example.org", "Tessa"), "add Tessa as helper"),
            ("add Tessa as helper", String::from("<a href=><a href=\"x"), "add Tessa as helper"),
        ];
        for (body, html, want) in rows {
            let content = json!({ "formatted_body": html });
            assert_eq!(with_addresses(body.to_owned(), &content, "@leafhold:example.org"), want, "{body}");
        }
        assert_eq!(
            with_addresses(String::from("add Bo as helper"), &json!({}), "@l:e.org"),
            "add Bo as helper"
        );
    }
}
