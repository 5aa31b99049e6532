package org.barmap.work;

import org.barmap.library.Job;

/** A job as the browser sees it. */
public record JobView(String id, String state, int done, int of, String text) {

  /** Returns the view of a job. */
  public static JobView of(Job job) {
    int done = job.state() == Job.State.DONE ? job.of() : job.done();
    return new JobView(job.id(), job.state().word(), done, job.of(), job.text());
  }
}
