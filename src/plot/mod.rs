//! Pictures (to come).
/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    title: String,
    description: String,
    name: String,
    svg: String,
}
impl Picture {
    /// T
    pub fn title(&self) -> &str {
        &self.title
    }
    /// D
    pub fn description(&self) -> &str {
        &self.description
    }
    /// N
    pub fn name(&self) -> &str {
        &self.name
    }
    /// S
    pub fn svg(&self) -> &str {
        &self.svg
    }
}
