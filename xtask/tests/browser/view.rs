//! What a page is looked at through: a size and a scheme.

/// A device, CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Size {
    pub(crate) name: &'static str,
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) touch: bool,
}

/// A device and its scheme.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct View {
    pub(crate) size: Size,
    pub(crate) dark: bool,
}

/// A phone of the smaller kind, at the board or the case.
pub(crate) const PHONE: Size = Size { name: "phone", width: 360, height: 740, touch: true };
/// A laptop on the kitchen table.
pub(crate) const LAPTOP: Size = Size { name: "laptop", width: 1280, height: 800, touch: false };
/// The narrowest a page must reflow to (WCAG 2.2, 1.4.10: 320 CSS pixels).
pub(crate) const NARROW: Size = Size { name: "320 px", width: 320, height: 640, touch: true };

pub(crate) const VIEWS: [View; 4] = [
    View { size: PHONE, dark: false },
    View { size: PHONE, dark: true },
    View { size: LAPTOP, dark: false },
    View { size: LAPTOP, dark: true },
];

impl View {
    pub(crate) const fn scheme(&self) -> &'static str {
        if self.dark { "dark" } else { "light" }
    }

    /// `phone, dark`
    pub(crate) fn name(&self) -> String {
        format!("{}, {}", self.size.name, self.scheme())
    }
}
