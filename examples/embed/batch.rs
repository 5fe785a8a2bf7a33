//! Work on lines by several threads, written in their order, with a bound on what is
//! done and not yet written.

use std::io;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::channel;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// What the threads share.
struct Turn {
    /// The line that is written next.
    next: usize,
    /// Bytes of answers that wait to be written.
    waiting: usize,
    /// Nothing more is written.
    stopped: bool,
}

struct Gate {
    turn: Mutex<Turn>,
    moved: Condvar,
}

impl Gate {
    fn lock(&self) -> MutexGuard<'_, Turn> {
        // A thread that panicked left numbers, no half of a structure.
        self.turn.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Waits until a line may be worked on: while fewer bytes than the budget wait, or
    /// when it is the next to be written, so that the work always goes on.
    fn enter(&self, index: usize, budget: usize) -> bool {
        let mut turn = self.lock();
        while !turn.stopped && turn.waiting >= budget && turn.next != index {
            turn = self
                .moved
                .wait(turn)
                .unwrap_or_else(PoisonError::into_inner);
        }
        !turn.stopped
    }

    fn add(&self, bytes: usize) {
        self.lock().waiting += bytes;
    }

    fn change(&self, change: impl FnOnce(&mut Turn)) {
        change(&mut self.lock());
        self.moved.notify_all();
    }
}

/// Lets nobody wait for the answer of a thread that panicked.
struct StopOnPanic<'a>(&'a Gate);

impl Drop for StopOnPanic<'_> {
    fn drop(&mut self) {
        if std::thread::panicking() {
            self.0.change(|turn| turn.stopped = true);
        }
    }
}

/// Answers every line by so many threads of the pool and writes the answers in order.
/// Answers that wait to be written take at most the budget and one answer a thread.
///
/// # Errors
/// What writing returns; the lines behind are not worked on.
pub(crate) fn in_order<T: Sync>(
    lines: &[T],
    threads: usize,
    budget: usize,
    answer: impl Fn(&T) -> String + Sync,
    mut write: impl FnMut(&str) -> io::Result<()>,
) -> io::Result<()> {
    if threads <= 1 || lines.len() <= 1 {
        return lines.iter().try_for_each(|line| write(&answer(line)));
    }
    let gate = Gate {
        turn: Mutex::new(Turn {
            next: 0,
            waiting: 0,
            stopped: false,
        }),
        moved: Condvar::new(),
    };
    let claimed = AtomicUsize::new(0);
    let (send, receive) = channel::<(usize, String)>();
    rayon::in_place_scope(|scope| {
        for _ in 0..threads.min(lines.len()) {
            let send = send.clone();
            let (gate, claimed, answer) = (&gate, &claimed, &answer);
            scope.spawn(move |_| {
                let _stop = StopOnPanic(gate);
                while let Some((index, line)) = {
                    let index = claimed.fetch_add(1, Ordering::Relaxed);
                    lines.get(index).map(|line| (index, line))
                } {
                    if !gate.enter(index, budget) {
                        break;
                    }
                    let text = answer(line);
                    gate.add(text.len());
                    if send.send((index, text)).is_err() {
                        break;
                    }
                }
            });
        }
        drop(send);
        let mut done: Vec<Option<String>> = lines.iter().map(|_| None).collect();
        let mut next = 0;
        let mut result = Ok(());
        while next < lines.len() && result.is_ok() {
            let Ok((index, text)) = receive.recv() else {
                break;
            };
            done[index] = Some(text);
            while let Some(text) = done.get_mut(next).and_then(Option::take) {
                result = write(&text);
                if result.is_err() {
                    break;
                }
                next += 1;
                let bytes = text.len();
                drop(text);
                gate.change(|turn| {
                    turn.next = next;
                    turn.waiting -= bytes;
                });
            }
        }
        gate.change(|turn| turn.stopped = true);
        result
    })
}
