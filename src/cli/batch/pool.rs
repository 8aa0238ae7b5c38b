//! Work on several threads, with results in the order of the work and no more of it in flight than some dozens.

use crate::files::stop;
use std::collections::BTreeMap;
use std::io;
use std::ops::ControlFlow;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError, mpsc};
use std::thread;

/// How far ahead of the oldest unfinished job each worker may run. Results wait in memory for the one before them.
const AHEAD: usize = 32;
/// Scenarios may nest; the main thread has as much.
const STACK: usize = 8 << 20;

/// What is still to do.
struct Queue<I> {
    jobs: I,
    /// How many were taken.
    taken: usize,
    /// How many results were delivered.
    delivered: usize,
    /// No more are to be taken.
    over: bool,
    /// Why the jobs could not be read on.
    unread: Option<io::Error>,
}

/// Works off all jobs and delivers the results in their order. Jobs are taken in order, and what is taken is finished: so
/// whenever this ends, what was delivered is everything up to some job. It ends early when `deliver` breaks off or the
/// program is asked to stop.
///
/// # Errors
/// Where the jobs cannot be read on.
pub(super) fn in_order<J: Send, R: Send>(
    jobs: impl Iterator<Item = io::Result<J>> + Send,
    workers: usize,
    work: impl Fn(&J) -> R + Sync,
    deliver: &mut dyn FnMut(R) -> ControlFlow<()>,
) -> io::Result<()> {
    let queue = Mutex::new(Queue { jobs, taken: 0, delivered: 0, over: false, unread: None });
    let room = Condvar::new();
    let (results, finished) = mpsc::channel::<(usize, R)>();
    let ahead = AHEAD * workers;
    let take = || {
        let mut own = locked(&queue);
        while own.taken >= own.delivered + ahead && !own.over {
            own = room.wait(own).unwrap_or_else(PoisonError::into_inner);
        }
        if own.over || stop::asked() {
            return None;
        }
        match own.jobs.next()? {
            Ok(job) => {
                own.taken += 1;
                Some((own.taken - 1, job))
            }
            Err(error) => {
                own.over = true;
                own.unread = Some(error);
                None
            }
        }
    };
    thread::scope(|scope| {
        for _ in 0..workers {
            let (results, take, work) = (results.clone(), &take, &work);
            let worker = move || {
                // What a job would do on many threads it does on this one: the cores have jobs enough.
                let _alone = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build();
                while let Some((at, job)) = take() {
                    if results.send((at, work(&job))).is_err() {
                        break;
                    }
                }
            };
            thread::Builder::new().stack_size(STACK).spawn_scoped(scope, worker)?;
        }
        drop(results);
        let mut waiting = BTreeMap::new();
        let mut next = 0;
        let mut broken = false;
        for (at, result) in finished {
            waiting.insert(at, result);
            while let Some(result) = waiting.remove(&next) {
                next += 1;
                broken = broken || deliver(result).is_break();
                let mut own = locked(&queue);
                own.delivered = next;
                own.over |= broken;
                room.notify_all();
            }
        }
        io::Result::Ok(())
    })?;
    queue.into_inner().unwrap_or_else(PoisonError::into_inner).unread.map_or(Ok(()), Err)
}

fn locked<I>(queue: &Mutex<Queue<I>>) -> MutexGuard<'_, Queue<I>> {
    queue.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::time::Duration;

    #[test]
    fn order_and_count_hold_for_any_number_of_workers() {
        for workers in [1, 2, 7] {
            let mut delivered = Vec::new();
            let work = |job: &u64| {
                thread::sleep(Duration::from_micros(job * 7919 % 300));
                job * job
            };
            in_order((0..500).map(Ok), workers, work, &mut |result| {
                delivered.push(result);
                ControlFlow::Continue(())
            })
            .unwrap();
            assert_eq!(delivered, (0..500).map(|job| job * job).collect::<Vec<_>>());
        }
    }

    /// The first job takes long: the others wait instead of piling up.
    #[test]
    fn no_more_is_in_flight_than_allowed() {
        let (taken, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        let jobs = (0..1000_usize).map(|job| {
            taken.fetch_add(1, Ordering::SeqCst);
            Ok(job)
        });
        let work = |job: &usize| {
            if *job == 0 {
                thread::sleep(Duration::from_millis(200));
                most.store(taken.load(Ordering::SeqCst), Ordering::SeqCst);
            }
        };
        in_order(jobs, 2, work, &mut |()| ControlFlow::Continue(())).unwrap();
        assert_eq!(most.into_inner(), 2 * AHEAD);
    }

    #[test]
    fn what_was_taken_is_finished_when_jobs_can_no_longer_be_read() {
        let jobs = (0..40).map(|job| if job < 30 { Ok(job) } else { Err(io::Error::other("gone")) });
        let mut delivered = 0;
        let ended = in_order(jobs, 3, |job| *job, &mut |job| {
            assert_eq!(job, delivered);
            delivered += 1;
            ControlFlow::Continue(())
        });
        assert_eq!((ended.unwrap_err().to_string().as_str(), delivered), ("gone", 30));
    }

    #[test]
    fn nothing_is_delivered_after_a_break() {
        let mut delivered = 0;
        in_order((0..).map(Ok), 2, |job: &u32| *job, &mut |_| {
            delivered += 1;
            if delivered == 5 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        })
        .unwrap();
        assert_eq!(delivered, 5);
    }
}
