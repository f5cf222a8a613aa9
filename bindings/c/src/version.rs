//! Version of the interface.

/// Version of this interface; it changes when a function or a constant changes its meaning or goes.
pub const SATLINE_ABI_VERSION: u32 = 1;

/// SATLINE_ABI_VERSION of the library that is linked; compare it with that of the header.
#[unsafe(no_mangle)]
pub extern "C" fn satline_abi_version() -> u32 {
    SATLINE_ABI_VERSION
}
