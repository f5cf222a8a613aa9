//! What every program here needs without a standard library.

#![no_std]

#[panic_handler]
fn stop(_: &core::panic::PanicInfo) -> ! {
    loop {}
}
