CREATE TABLE `mail_events` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`mail_id` integer NOT NULL,
	`at` text NOT NULL,
	`event` text NOT NULL,
	`by` text,
	`says` text,
	FOREIGN KEY (`mail_id`) REFERENCES `mails`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `mail_events_by_mail` ON `mail_events` (`mail_id`);--> statement-breakpoint
CREATE TABLE `mail_server_state` (
	`id` integer PRIMARY KEY NOT NULL,
	`failures` integer NOT NULL,
	`since` text NOT NULL,
	`next_try_at` text NOT NULL,
	`says` text NOT NULL,
	CONSTRAINT "mail_server_state_one_row" CHECK("mail_server_state"."id" = 1)
);
--> statement-breakpoint
CREATE TABLE `mail_takings` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`mails` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `mail_takings_by_at` ON `mail_takings` (`at`);--> statement-breakpoint
CREATE TABLE `mails` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`kind` text NOT NULL,
	`state` text NOT NULL,
	`customer_id` text,
	`machine_tag` text,
	`question_id` text,
	`job_id` text,
	`message_id` integer,
	`to_name` text NOT NULL,
	`to_address` text NOT NULL,
	`to_key` text NOT NULL,
	`subject` text NOT NULL,
	`html` text NOT NULL,
	`text` text NOT NULL,
	`rfc_message_id` text NOT NULL,
	`unsubscribe_token` text,
	`bytes` blob,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`approved_at` text,
	`approved_by` text,
	`due_at` text,
	`tries` integer DEFAULT 0 NOT NULL,
	`first_tried_at` text,
	`lease_id` text,
	`lease_until` text,
	`handed_at` text,
	`sent_at` text,
	`came_back_at` text,
	`says` text,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`message_id`) REFERENCES `messages`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `mails_by_message_id` ON `mails` (`rfc_message_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `mails_by_unsubscribe` ON `mails` (`unsubscribe_token`);--> statement-breakpoint
CREATE INDEX `mails_due` ON `mails` (`state`,`due_at`);--> statement-breakpoint
CREATE INDEX `mails_by_customer` ON `mails` (`customer_id`);--> statement-breakpoint
CREATE INDEX `mails_by_address` ON `mails` (`to_key`);--> statement-breakpoint
CREATE INDEX `mails_by_message` ON `mails` (`message_id`);--> statement-breakpoint
CREATE INDEX `mails_by_job` ON `mails` (`job_id`);--> statement-breakpoint
CREATE INDEX `mails_by_machine` ON `mails` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `offer_rules` (
	`id` integer PRIMARY KEY NOT NULL,
	`quiet_from_hour` integer NOT NULL,
	`quiet_until_hour` integer NOT NULL,
	`cap_offers` integer NOT NULL,
	`cap_days` integer NOT NULL,
	CONSTRAINT "offer_rules_one_row" CHECK("offer_rules"."id" = 1)
);
--> statement-breakpoint
-- What happened stays as it was; only the words of it may go, when a person is erased.
CREATE TRIGGER `mail_events_only_added` BEFORE UPDATE ON `mail_events` WHEN NOT (new.`says` IS NULL AND new.`mail_id` = old.`mail_id` AND new.`at` = old.`at` AND new.`event` = old.`event`) BEGIN SELECT RAISE(ABORT, 'mail events are only added to'); END;--> statement-breakpoint
CREATE TRIGGER `mail_events_never_deleted` BEFORE DELETE ON `mail_events` BEGIN SELECT RAISE(ABORT, 'mail events are only added to'); END;
