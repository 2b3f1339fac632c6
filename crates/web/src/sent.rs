//! What a form sent: its fields by name, several of one name where boxes were ticked.

use axum::extract::rejection::FormRejection;
use axum::extract::{Form, FromRequest, Query, Request};
use axum::http::Uri;
use std::collections::BTreeMap;
use uuid::Uuid;

use crate::failure::Failure;
use crate::parts::Typed;

/// At most this many bytes are read of a form; the longest one here is the settings, well under a tenth of it.
pub(crate) const FORM_LIMIT: usize = 64 * 1024;

/// The fields of a form as they came.
#[derive(Clone, Debug, Default)]
pub(crate) struct Sent(Vec<(String, String)>);

impl Sent {
    /// The fields of an address; one whose query cannot be read has none.
    pub(crate) fn of_address(uri: &Uri) -> Self {
        Query::try_from_uri(uri).map_or_else(|_| Self::default(), |Query(fields)| Self(fields))
    }

    /// Which form of the page it is.
    pub(crate) fn form(&self) -> &str {
        self.get("form").unwrap_or_default()
    }

    /// The id its entry shall have: made with the page, so that sending twice counts once. A form that carries none, or
    /// no UUIDv7, gets a new one.
    pub(crate) fn id(&self) -> Uuid {
        let sent = self.get("id").and_then(|id| Uuid::parse_str(id).ok());
        sent.filter(|id| id.get_version_num() == 7).unwrap_or_else(Uuid::now_v7)
    }

    /// The first value of that name, without the spaces around it; nothing if it is empty.
    pub(crate) fn get(&self, name: &str) -> Option<&str> {
        self.all(name).next()
    }

    /// Every value of that name that is not empty.
    pub(crate) fn all<'a>(&'a self, name: &str) -> impl Iterator<Item = &'a str> {
        let wanted = name.to_owned();
        self.0
            .iter()
            .filter(move |(name, _)| *name == wanted)
            .map(|(_, value)| value.trim())
            .filter(|value| !value.is_empty())
    }

    /// Whether the form has a field of that name, filled or not.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.0.iter().any(|(other, _)| other == name)
    }

    /// The fields as the form shall show them again.
    pub(crate) fn typed(&self) -> Typed {
        let values: BTreeMap<String, String> = self.0.iter().cloned().collect();
        Typed::sent(self.form(), values)
    }
}

impl FromIterator<(String, String)> for Sent {
    fn from_iter<I: IntoIterator<Item = (String, String)>>(fields: I) -> Self {
        Self(fields.into_iter().collect())
    }
}

impl<S: Send + Sync> FromRequest<S> for Sent {
    type Rejection = Failure;

    async fn from_request(request: Request, state: &S) -> Result<Self, Failure> {
        match Form::<Vec<(String, String)>>::from_request(request, state).await {
            Ok(Form(fields)) => Ok(Self(fields)),
            Err(FormRejection::BytesRejection(_)) => Err(Failure::TooLong { limit: FORM_LIMIT }),
            Err(rejection) => Err(Failure::Unreadable { found: rejection.body_text() }),
        }
    }
}

/// The n-th id made from the one of the form, for a form that writes several entries: the same each time it is sent.
pub(crate) fn nth_id(first: Uuid, n: u16) -> Uuid {
    let mut bytes = *first.as_bytes();
    let last = u16::from_be_bytes([bytes[14], bytes[15]]).wrapping_add(n);
    bytes[14..].copy_from_slice(&last.to_be_bytes());
    Uuid::from_bytes(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sent(fields: &[(&str, &str)]) -> Sent {
        fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect()
    }

    #[test]
    fn boxes_of_one_name_are_all_read_and_empty_ones_are_not() {
        let sent = sent(&[("here", "a"), ("here", " "), ("here", "b"), ("note", "  x ")]);
        assert_eq!(sent.all("here").collect::<Vec<_>>(), ["a", "b"]);
        assert_eq!(sent.get("note"), Some("x"));
    }

    #[test]
    fn the_ids_of_a_form_are_the_same_each_time_and_stay_version_seven() {
        let first = Uuid::now_v7();
        assert_eq!(nth_id(first, 0), first);
        assert_eq!(nth_id(first, 3), nth_id(first, 3));
        assert_ne!(nth_id(first, 3), nth_id(first, 4));
        assert_eq!(nth_id(first, u16::MAX).get_version_num(), 7);
    }

    #[test]
    fn only_a_uuid_of_version_seven_is_taken_from_a_form() {
        let four = "f47ac10b-58cc-4372-a567-0e02b2c3d479";
        assert_ne!(sent(&[("id", four)]).id().to_string(), four);
        let seven = Uuid::now_v7();
        assert_eq!(sent(&[("id", &seven.to_string())]).id(), seven);
    }
}
