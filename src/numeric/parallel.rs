//! Many independent computations on the cores there are.

use std::cell::Cell;
use std::panic::resume_unwind;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{available_parallelism, scope};

/// The most threads one call begins; our choice, so that a library does not take a whole server.
const MOST_THREADS: usize = 4;

/// How many threads there are for one call; one where the machine has none to give, as in a browser.
fn threads() -> usize {
    static THREADS: OnceLock<usize> = OnceLock::new();
    *THREADS.get_or_init(|| available_parallelism().map_or(1, |cores| cores.get().min(MOST_THREADS)))
}

thread_local! {
    /// Whether this thread is one of as many as there may be, so that a computation within begins no more of them.
    static ALL_BUSY: Cell<bool> = const { Cell::new(false) };
}

/// [`ALL_BUSY`] as it was, once this is dropped.
struct Busy(bool);

impl Busy {
    fn begin(all: bool) -> Self {
        Self(ALL_BUSY.replace(all || ALL_BUSY.get()))
    }
}

impl Drop for Busy {
    fn drop(&mut self) {
        ALL_BUSY.set(self.0);
    }
}

/// `f` of every one of `items`, in their order: the answer does not depend on the number of threads. Where every thread is busy with
/// such a computation already, one within it runs on the thread it is on.
pub(crate) fn map<'a, T: Sync, R: Send>(items: &'a [T], f: impl Fn(&'a T) -> R + Sync) -> Vec<R> {
    #[cfg(test)]
    if let Some(threads) = asked::threads() {
        return asked::map(threads, items, f);
    }
    map_on(if ALL_BUSY.get() { 1 } else { threads() }, items, f)
}

fn map_on<'a, T: Sync, R: Send>(threads: usize, items: &'a [T], f: impl Fn(&'a T) -> R + Sync) -> Vec<R> {
    let (all_busy, threads) = (items.len() >= threads, threads.min(items.len()));
    if threads < 2 {
        return items.iter().map(f).collect();
    }
    let next = AtomicUsize::new(0);
    let work = || {
        let _busy = Busy::begin(all_busy);
        let mut done = Vec::with_capacity(items.len() / threads + 1);
        loop {
            let i = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(i) else { return done };
            done.push((i, f(item)));
        }
    };
    let done = scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
        let mut done = work();
        for other in others {
            done.append(&mut other.join().unwrap_or_else(|panic| resume_unwind(panic)));
        }
        done
    });
    let mut results: Vec<Option<R>> = items.iter().map(|_| None).collect();
    for (i, result) in done {
        results[i] = Some(result);
    }
    results.into_iter().flatten().collect()
}

/// A number of threads that a test asks for, in place of what the machine has.
#[cfg(test)]
pub(crate) mod asked {
    use std::cell::Cell;

    thread_local! {
        static ASKED: Cell<Option<usize>> = const { Cell::new(None) };
        static MAPS: Cell<usize> = const { Cell::new(0) };
    }

    pub(super) fn threads() -> Option<usize> {
        ASKED.get()
    }

    /// As of [`super::map`], on `threads` threads, also where one computation begins others.
    pub(super) fn map<'a, T: Sync, R: Send>(threads: usize, items: &'a [T], f: impl Fn(&'a T) -> R + Sync) -> Vec<R> {
        MAPS.set(MAPS.get() + 1);
        super::map_on(threads, items, |item| {
            let before = ASKED.replace(Some(threads));
            let result = f(item);
            ASKED.set(before);
            result
        })
    }

    /// What `work` returns on so many threads, and how many times it had several computations to share.
    pub(crate) fn on<R>(threads: usize, work: impl FnOnce() -> R) -> (R, usize) {
        MAPS.set(0);
        ASKED.set(Some(threads));
        let result = work();
        ASKED.set(None);
        (result, MAPS.get())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_number_of_threads_gives_every_item_once_in_order() {
        let items: Vec<u64> = (0..1000).collect();
        let squares: Vec<u64> = items.iter().map(|i| i * i).collect();
        for threads in [0, 1, 2, 3, 8, 2000] {
            assert_eq!(map_on(threads, &items, |i| i * i), squares, "{threads} threads");
        }
        assert!(map_on(4, &[] as &[u64], |i| *i).is_empty());
        assert!((1..=MOST_THREADS).contains(&threads()));
    }

    /// Each of the 4 items of the outer computation begins one of 6 of its own.
    #[test]
    fn what_a_test_asks_for_holds_in_the_computations_within() {
        for threads in [1, 2, 8] {
            let outer: Vec<u64> = (1..=4).collect();
            let inner: Vec<u64> = (1..=6).collect();
            let table = || map(&outer, |i| map(&inner, |k| (i * k, asked::threads())));
            let (table, maps) = asked::on(threads, table);
            let all = table.concat();
            assert!(all.iter().all(|(_, within)| *within == Some(threads)), "{threads}: {all:?}");
            assert_eq!(all.iter().map(|(product, _)| product).sum::<u64>(), 10 * 21);
            // those begun on this thread; of the inner ones the others count theirs
            assert!((1..=5).contains(&maps), "{maps} on {threads} threads");
        }
        assert_eq!(asked::threads(), None);
    }

    /// Six items keep two threads busy, one does not.
    #[test]
    fn a_computation_within_one_that_keeps_every_thread_busy_begins_no_threads() {
        let within = |threads, items: &[u64]| map_on(threads, items, |_| ALL_BUSY.get());
        assert_eq!(within(2, &[1; 6]), [true; 6]);
        assert_eq!(within(2, &[1]), [false]);
        assert_eq!(within(3, &[1; 2]), [false; 2]);
        let on = |item: &u64| (std::thread::current().id(), *item);
        for (thread, inner) in map_on(2, &[[1, 2], [3, 4], [5, 6]], |pair| (std::thread::current().id(), map(pair, on)))
        {
            assert!(inner.iter().all(|(within, _)| *within == thread), "{inner:?}");
        }
        assert!(!ALL_BUSY.get());
    }

    #[test]
    #[should_panic(expected = "item 7")]
    fn a_panic_of_one_is_one_of_all() {
        map_on(2, &[5, 6, 7, 8], |i| assert_ne!(*i, 7, "item 7"));
    }
}
