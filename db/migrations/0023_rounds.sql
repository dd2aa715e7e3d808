CREATE TABLE `round_events` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`round_id` text NOT NULL,
	`seat_id` integer,
	`at` text NOT NULL,
	`event` text NOT NULL,
	`by` text,
	`says` text,
	FOREIGN KEY (`round_id`) REFERENCES `rounds`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seat_id`) REFERENCES `round_seats`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `round_events_by_round` ON `round_events` (`round_id`);--> statement-breakpoint
CREATE TABLE `round_items` (
	`round_id` text NOT NULL,
	`item_id` text NOT NULL,
	`quantity` integer NOT NULL,
	`cost_minor` integer,
	PRIMARY KEY(`round_id`, `item_id`),
	FOREIGN KEY (`round_id`) REFERENCES `rounds`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`item_id`) REFERENCES `shelf_items`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "round_items_some" CHECK("round_items"."quantity" > 0)
);
--> statement-breakpoint
CREATE TABLE `round_links` (
	`token_hash` text PRIMARY KEY NOT NULL,
	`seat_id` integer NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`seat_id`) REFERENCES `round_seats`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `round_seats` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`round_id` text NOT NULL,
	`position` integer NOT NULL,
	`customer_id` text NOT NULL,
	`machine_tag` text,
	`question_id` text,
	`item_id` text,
	`option_id` text,
	`pct` real,
	`due_minor` integer,
	`needs` text,
	`draft` text,
	`answer_id` integer,
	`standing` text NOT NULL,
	`left_because` text,
	`left_note` text,
	`yes_number` integer,
	`said_at` text,
	`said_by` text,
	`job_id` text,
	`mail_id` integer,
	`asked_at` text,
	`told_mail_id` integer,
	`trouble` text,
	FOREIGN KEY (`round_id`) REFERENCES `rounds`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`item_id`) REFERENCES `shelf_items`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`answer_id`) REFERENCES `answers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`mail_id`) REFERENCES `mails`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`told_mail_id`) REFERENCES `mails`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `round_seats_by_customer` ON `round_seats` (`customer_id`);--> statement-breakpoint
CREATE INDEX `round_seats_by_mail` ON `round_seats` (`mail_id`);--> statement-breakpoint
CREATE INDEX `round_seats_by_job` ON `round_seats` (`job_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `round_seats_once` ON `round_seats` (`round_id`,`customer_id`,`machine_tag`);--> statement-breakpoint
CREATE TABLE `rounds` (
	`id` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`state` text NOT NULL,
	`source` text NOT NULL,
	`created_at` text NOT NULL,
	`created_by` text,
	`valid_until` text NOT NULL,
	`yeses` integer DEFAULT 0 NOT NULL,
	`prepared_at` text,
	`trouble` text,
	`begun_at` text,
	`begun_by` text,
	`findable_id` text,
	`wanted_yeses` integer,
	`bought_pieces` integer,
	`bought_at` text,
	FOREIGN KEY (`findable_id`) REFERENCES `findable_parts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
ALTER TABLE `mails` ADD `paused_at` text;--> statement-breakpoint
-- What happened stays as it was; only the words of it may go, when a person is erased.
CREATE TRIGGER `round_events_only_added` BEFORE UPDATE ON `round_events` WHEN NOT (new.`says` IS NULL AND new.`round_id` = old.`round_id` AND new.`seat_id` IS old.`seat_id` AND new.`at` = old.`at` AND new.`event` = old.`event`) BEGIN SELECT RAISE(ABORT, 'round events are only added to'); END;--> statement-breakpoint
CREATE TRIGGER `round_events_never_deleted` BEFORE DELETE ON `round_events` BEGIN SELECT RAISE(ABORT, 'round events are only added to'); END;
